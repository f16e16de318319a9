import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROBLEM_CODES, problemCode, problemSeverity } from '../../../server/src/rs274/index.ts';

const ROOM = join(import.meta.dirname, '../../../server/src/rs274');
const TOLD = /\b(?:problem|problemAt|report|error|warn|wrong|noteLine|end)\([^;]*?'([a-z]+(?:-[a-z]+)+)'/g;
const LISTED = /(?:return \[|code: )'([a-z]+(?:-[a-z]+)+)'/g;
/** Words of the sources that stand where a problem code could. */
const NO_CODES = new Set(['save-state', 'restore-state', 'discard-state', 'modal-macro-call']);

describe('rs274: problem codes', () => {
  it('has each code once, with a meaning', () => {
    assert.equal(new Set(PROBLEM_CODES.map(row => row.code)).size, PROBLEM_CODES.length);
    for (const row of PROBLEM_CODES) {
      assert.match(row.severity, /^(error|warning|information|hint)$/, row.code);
      assert.ok(row.means.endsWith('.') && row.title.length > 3 && row.source.length > 3, row.code);
    }
  });

  it('has every code that the sources tell', () => {
    const missing = new Set<string>();
    let found = 0;
    for (const name of readdirSync(ROOM, { recursive: true, encoding: 'utf8' })) {
      if (!name.endsWith('.ts') || name.startsWith('problem-codes') || name.startsWith('codes')) continue;
      const text = readFileSync(join(ROOM, name), 'utf8');
      for (const [, code] of [...text.matchAll(TOLD), ...text.matchAll(LISTED)]) {
        if (NO_CODES.has(code)) continue;
        found += 1;
        if (problemCode(code) === undefined) missing.add(`${name}: ${code}`);
      }
    }
    assert.ok(found > 80, String(found));
    assert.deepEqual([...missing], []);
  });

  it('is stricter where the report is', () => {
    assert.equal(problemSeverity('letter-repeated', 'ngc'), 'error');
    assert.equal(problemSeverity('letter-repeated', 'iso6983'), 'warning');
  });
});
