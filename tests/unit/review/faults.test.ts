import assert from 'node:assert/strict';
import type { Finding, Fix } from '../../../server/src/review/finding.ts';
import { findingsOf, type Job, jobs, tryFault } from '../../faults/fault.ts';
import { falseAlarms } from '../../faults/score.ts';
import { FAULTS } from '../../faults/table.ts';

const all = jobs();

/** The program with a fix applied, last edit first. */
function applied(program: string, fix: Fix): string {
  const lines = program.split('\n');
  const offset = (line: number, column: number) =>
    lines.slice(0, line).reduce((sum, text) => sum + text.length + 1, 0) + column;
  return [...fix.edits]
    .sort((a, b) => b.line - a.line || b.column - a.column)
    .reduce(
      (text, edit) =>
        text.slice(0, offset(edit.line, edit.column)) +
        edit.text +
        text.slice(offset(edit.end_line, edit.end_column)),
      program,
    );
}

const grave = (findings: readonly Finding[]) => findings.filter(f => f.severity === 'error');

describe('faults put into good programs', () => {
  for (const fault of FAULTS) {
    it(`${fault.family}: ${fault.name} (${fault.job})`, () => {
      const { caught, said } = tryFault(fault, all);
      assert.ok(caught, `said instead: ${said || 'nothing'}`);
    });
  }

  it('good programs and harmless rewrites of them get no error and no warning', () => {
    assert.ok(all.length >= 8, String(all.length));
    assert.deepEqual(falseAlarms(all), []);
  });
});

describe('fixes of faults', () => {
  for (const fault of FAULTS) {
    if (fault.inSheet) continue;
    it(`${fault.name} (${fault.job})`, () => {
      const job = all.find(each => each.name.startsWith(`${fault.job}.`)) as Job;
      let at = -1;
      for (let i = 0; i < (fault.nth ?? 1); i++) at = job.program.indexOf(fault.from, at + 1);
      const program = job.program.slice(0, at) + fault.to + job.program.slice(at + fault.from.length);
      const before = findingsOf({ ...job, program });
      for (const finding of before.filter(f => fault.codes.includes(f.code))) {
        for (const fix of finding.fixes ?? []) {
          const after = findingsOf({ ...job, program: applied(program, fix) });
          const left = after.filter(
            f => f.code === finding.code && f.line === finding.line && f.severity === finding.severity,
          );
          assert.deepEqual(left, [], `${fix.title}: still there`);
          assert.ok(
            grave(after).length <= grave(before).length,
            `${fix.title}: new error ${JSON.stringify(grave(after))}`,
          );
        }
      }
    });
  }
});
