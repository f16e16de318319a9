import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import { moves } from '../../../server/src/report/moves.ts';
import type { Finding, Fix } from '../../../server/src/review/finding.ts';
import { type Job, jobs } from '../../faults/fault.ts';

/** The program with a fix applied, last edit first. */
function applied(program: string, fix: Fix): string {
  const lines = program.split('\n');
  for (const edit of [...fix.edits].sort((a, b) => b.line - a.line || b.column - a.column)) {
    assert.equal(edit.line, edit.end_line, 'a fix of a fixture edits single lines');
    const text = lines[edit.line];
    lines[edit.line] = text.slice(0, edit.column) + edit.text + text.slice(edit.end_column);
  }
  return lines.join('\n');
}

function review(job: Job, program: string): { findings: readonly Finding[]; path: string[] } {
  const { review: made } = openJob({
    bytes: new TextEncoder().encode(program),
    name: job.name,
    files: job.sheet ? { sheet: { path: 'job.setup.json', text: job.sheet } } : {},
    cut: true,
  });
  const path: string[] = [];
  moves(made.program, move =>
    path.push(JSON.stringify([move.kind, move.from, move.to, move.centre, move.tool])),
  );
  return { findings: made.findings, path };
}

describe('fixes of the fixtures, one after another', () => {
  let offered = 0;
  for (const job of jobs()) {
    it(job.name, () => {
      const before = review(job, job.program);
      for (const finding of before.findings) {
        for (const fix of finding.fixes ?? []) {
          offered++;
          const after = review(job, applied(job.program, fix));
          assert.deepEqual(after.path, before.path, `${fix.title}: moves changed`);
          const left = after.findings.filter(f => f.code === finding.code && f.line === finding.line);
          assert.deepEqual(left, [], `${fix.title}: ${finding.code} is still there`);
          assert.deepEqual(
            after.findings.filter(f => f.severity === 'error' || f.severity === 'warning'),
            [],
            fix.title,
          );
        }
      }
    });
  }
  it('there were fixes to apply', () => assert.ok(offered >= 5, String(offered)));
});
