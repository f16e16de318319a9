import assert from 'node:assert/strict';
import { verdict } from '../../../server/src/report/text.ts';
import type { Finding, Severity } from '../../../server/src/review/finding.ts';

function said(...severities: Severity[]): string {
  const findings = severities.map(severity => ({ severity }) as Finding);
  return verdict({ findings, not_checked: [], complete: true });
}

describe('the verdict of a review in the terminal', () => {
  const cases: [said: string, severities: Severity[]][] = [
    ['No errors found in what was checked.', []],
    ['No errors found in what was checked. 2 warnings.', ['warning', 'warning']],
    ['1 error found.', ['error']],
    ['2 errors found. 1 warning, 1 information.', ['error', 'information', 'error', 'warning']],
  ];
  for (const [words, severities] of cases) it(words, () => assert.equal(said(...severities), words));
});
