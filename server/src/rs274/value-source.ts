/** Gives values to expressions and parameters in a block; without one they are left open and the block needs flow. */
export interface ValueSource {
  /**
   * Value of the expression or parameter that begins at `start` of the line. `end` is after it. NaN with `vacant` means
   * that the word counts as not written.
   */
  read(text: string, start: number): { value: number; end: number; vacant?: boolean; problem?: ValueProblem };
  /** Reads `#n=value` or `#<name>=value` at `start`; it takes effect after the block's values have been read. */
  assign(text: string, start: number): { end: number; problem?: ValueProblem };
}

export interface ValueProblem {
  code: string;
  message: string;
  start: number;
  end: number;
}
