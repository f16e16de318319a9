import { rules } from '../../review/rules/index.ts';
import { PROBLEM_CODES } from '../../rs274/index.ts';
import { findingCodes } from '../finding-codes.ts';
import { type Explanation, partsOf } from './explanation.ts';

/** Every finding code, and every problem of the reader that a finding carries. */
export function findingExplanations(): Explanation[] {
  const carriers = new Map<string, string>();
  for (const rule of rules) for (const problem of rule.problems ?? []) carriers.set(problem, rule.code);
  const findings = findingCodes.map(
    (row): Explanation => ({
      kind: 'finding',
      name: row.code,
      title: row.title,
      also: [],
      parts: partsOf([
        ['severity', row.severity],
        ['means', row.means],
        ['what to do', row.cure],
        ['fine when', row.fine_when],
        ['source', row.source],
        ['silence it', `(OK ${row.code}: why it is fine here)`, true],
      ]),
    }),
  );
  const problems = PROBLEM_CODES.map(
    (row): Explanation => ({
      kind: 'problem',
      name: row.code,
      title: row.title,
      also: [],
      parts: partsOf([
        [
          'severity',
          row.severity_ngc && row.severity_ngc !== row.severity
            ? `${row.severity}; ${row.severity_ngc} in ngc`
            : row.severity,
        ],
        ['means', row.means],
        ['shown as', carriers.get(row.code)],
        ['source', row.source],
      ]),
    }),
  );
  const own = new Set(findings.map(({ name }) => name));
  return [...findings, ...problems.filter(({ name }) => !own.has(name) || carriers.get(name) !== name)];
}
