/** How bad a problem of reading is. */
export type ProblemSeverity = 'error' | 'warning' | 'information' | 'hint';

/** One row: code, title, severity (`other/ngc`), what it means, source. */
export type ProblemRow = readonly [
  code: string,
  title: string,
  severity: string,
  means: string,
  source?: string,
];
