import type { Dialect } from './codes/shape.ts';
import { FLOW_PROBLEMS } from './problem-codes-flow.ts';
import { MOTION_PROBLEMS } from './problem-codes-motion.ts';
import { READING_PROBLEMS } from './problem-codes-reading.ts';
import type { ProblemSeverity } from './problem-row.ts';

/** What one problem code of the reader means. */
export interface ProblemCode {
  readonly code: string;
  readonly title: string;
  readonly severity: ProblemSeverity;
  /** Where a strict reader of the report (`ngc`) takes it otherwise. */
  readonly severity_ngc?: ProblemSeverity;
  readonly means: string;
  readonly source: string;
}

const PRACTICE = 'common practice, no source';

/** Every problem that reading and executing a program can give. */
export const PROBLEM_CODES: readonly ProblemCode[] = [
  ...READING_PROBLEMS,
  ...MOTION_PROBLEMS,
  ...FLOW_PROBLEMS,
].map(([code, title, severity, means, source]) => {
  const [other, ngc] = severity.split('/') as ProblemSeverity[];
  return {
    code,
    title,
    severity: other,
    ...(ngc ? { severity_ngc: ngc } : {}),
    means,
    source: source ?? PRACTICE,
  };
});

const BY_CODE = new Map(PROBLEM_CODES.map(row => [row.code, row]));

/** The row of a problem code; undefined for one that the table does not have. */
export function problemCode(code: string): ProblemCode | undefined {
  return BY_CODE.get(code);
}

/** How bad a problem is in a dialect. */
export function problemSeverity(code: string, dialect: Dialect): ProblemSeverity {
  const row = BY_CODE.get(code);
  if (row === undefined) return 'warning';
  return dialect === 'ngc' ? (row.severity_ngc ?? row.severity) : row.severity;
}
