import assert from 'node:assert/strict';
import { runRules } from '../../../server/src/review/engine.ts';
import type { Severity } from '../../../server/src/review/finding.ts';
import type { Rule } from '../../../server/src/review/rule.ts';
import { reviewText } from './check.ts';

const { program } = reviewText('G21 G90\nT1 M6\nS1000 M3\nG0 X0 Y0 Z5.\nG1 Z-1. F100.\nM30\n');

function rule(code: string, severity: Severity, explains?: readonly string[]): Rule {
  return {
    code,
    title: code,
    family: 'state',
    severity,
    means: '',
    cure: '',
    fine_when: '',
    source: 'none',
    needs: [],
    ...(explains ? { explains } : {}),
    tool: (_use, at, report) => report({ at: at.blockPlace(1), message: `${code}.` }),
    flagged: [],
    silent: [],
  };
}

describe('a finding that another explains', () => {
  const cases: [string, Severity, Severity, string[]][] = [
    ['is left out when the cause is as bad', 'error', 'error', ['cause']],
    ['is left out when the cause is worse', 'error', 'information', ['cause']],
    ['stays when it is worse than the cause', 'warning', 'error', ['cause', 'effect']],
  ];
  for (const [title, cause, effect, left] of cases)
    it(title, () => {
      const rules = [rule('cause', cause, ['effect']), rule('effect', effect)];
      assert.deepEqual(
        runRules(rules, program, {})
          .findings.map(finding => finding.code)
          .sort(),
        left,
      );
    });
});
