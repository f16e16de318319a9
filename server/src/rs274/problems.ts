/** What the reader or the interpreter has to say about a place in the program. */
export interface Problem {
  /** Stable code in words; the findings table gives it a title, a severity and a manual page. */
  code: string;
  /** 0-based line; inside a stretch relative to its first line. */
  line: number;
  /** UTF-16 units from the start of the line, end exclusive. */
  start: number;
  end: number;
  message: string;
  /** A text edit on the same line that mends it, when one is certain. */
  fix?: { title: string; start: number; end: number; text: string };
  /** File, when it is not the program itself. */
  file?: string;
}
