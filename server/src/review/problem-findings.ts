import type { Problem } from '../rs274/problems.ts';
import { Slot } from '../rs274/slot.ts';
import type { EngineOptions } from './engine.ts';
import type { Finding } from './finding.ts';
import { keptBy } from './kept-by.ts';
import type { Program } from './program.ts';
import type { Rule } from './rule.ts';

/** Problems of the reader, carried by the rule that names their code. */
export function problemFindings(rules: readonly Rule[], program: Program, options: EngineOptions): Finding[] {
  const byProblem = problemRules(rules);
  const findings: Finding[] = [];
  for (const problem of program.problems()) {
    const rule = byProblem.get(problem.code);
    const code = rule?.code ?? problem.code;
    const set = options.severities?.[code];
    if (set === 'off') continue;
    const rated = rule?.rate?.(problem, program);
    const severity = set ?? problem.severity ?? rated ?? rule?.severity ?? 'warning';
    const kept = made.get(problem);
    if (kept?.severity === severity && kept.code === code) {
      findings.push(kept);
      continue;
    }
    const fixes = problem.fix
      ? [
          {
            title: problem.fix.title,
            grade: 'safe' as const,
            edits: [
              {
                line: problem.line,
                column: problem.fix.start,
                end_line: problem.line,
                end_column: problem.fix.end,
                text: problem.fix.text,
              },
            ],
          },
        ]
      : undefined;
    const finding: Finding = {
      code,
      severity,
      line: problem.line,
      column: problem.start,
      end_line: problem.line,
      end_column: problem.end,
      message: asSentence(problem.message),
      ...(rule ? { source: rule.source } : {}),
      ...(fixes ? { fixes } : {}),
      ...(problem.file ? { file: problem.file } : {}),
    };
    made.set(problem, finding);
    findings.push(finding);
  }
  return findings;
}

/** What was made of a problem last: at a key all but a few are those of the review before. */
const made = new Slot<Problem, Finding>();

/** The rules by the codes of the problems that they carry. */
const problemRules = keptBy(
  (rules: readonly Rule[]): ReadonlyMap<string, Rule> =>
    new Map(rules.flatMap(rule => (rule.problems ?? []).map(code => [code, rule] as const))),
);

/** First letter large, a full stop at the end. */
export function asSentence(text: string): string {
  const begun = text.slice(0, 1).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(begun) ? begun : `${begun}.`;
}
