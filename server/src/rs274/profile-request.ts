/** A G70, G71 or G72 of the report's successor that waits for the moves of its subroutine. Lengths mm, NaN: not given. */
export interface ProfileRequest {
  readonly finishing: boolean;
  readonly face: boolean;
  readonly pockets: boolean;
  /** Label of the subroutine. */
  readonly sub: string;
  /** Where the cycle starts: X and Z of the block, else where the tool stands. */
  readonly x: number;
  readonly z: number;
  readonly d: number;
  readonly e: number;
  readonly i: number;
  readonly r: number;
  readonly passes: number;
  readonly line: number;
}
