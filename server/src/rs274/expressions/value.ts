/** What is known of a value. */
export const STATUS = {
  known: 0,
  /** Never set, on controls that have that: a word with it is not there, a sum counts it as 0. */
  vacant: 1,
  /** The control has a value but the program does not tell it: positions that depend on it are unknown. */
  unknown: 2,
  /** There is a problem; `problem`, `start`, `end` and `message` say what. */
  wrong: 3,
} as const;
export type Status = (typeof STATUS)[keyof typeof STATUS];

/** The result of reading a value. One object is used again and again: no object a value. */
export class Value {
  /** NaN unless `status` is known. */
  number = Number.NaN;
  status: Status = STATUS.known;
  /** Offset after what was read. */
  next = 0;
  /** Why the value is unknown, in words. */
  reason = '';
  /** Code of the problem, empty without. Offsets are those of the source. */
  problem = '';
  start = 0;
  end = 0;
  message = '';

  known(number: number): void {
    this.number = number;
    this.status = STATUS.known;
  }

  vacant(): void {
    this.number = Number.NaN;
    this.status = STATUS.vacant;
  }

  unknown(reason: string): void {
    this.number = Number.NaN;
    this.status = STATUS.unknown;
    this.reason = reason;
  }

  wrong(problem: string, start: number, end: number, message: string): void {
    if (this.status === STATUS.wrong) return;
    this.number = Number.NaN;
    this.status = STATUS.wrong;
    this.problem = problem;
    this.start = start;
    this.end = end;
    this.message = message;
  }

  reset(at: number): void {
    this.number = Number.NaN;
    this.status = STATUS.known;
    this.next = at;
    this.reason = '';
    this.problem = '';
    this.message = '';
    this.start = at;
    this.end = at;
  }
}
