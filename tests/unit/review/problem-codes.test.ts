import assert from 'node:assert/strict';
import { rules } from '../../../server/src/review/rules/index.ts';
import { PROBLEM_CODES } from '../../../server/src/rs274/problem-codes.ts';

describe('problems of the reader', () => {
  const carried = rules.flatMap(rule => [...(rule.problems ?? [])]);

  it('are each carried by a rule', () => {
    const left = PROBLEM_CODES.map(row => row.code).filter(code => !carried.includes(code));
    assert.ok(PROBLEM_CODES.length > 80, String(PROBLEM_CODES.length));
    assert.deepEqual(left, []);
  });

  it('are each carried by one rule only', () => {
    assert.deepEqual(
      carried.filter((code, index) => carried.indexOf(code) !== index),
      [],
    );
  });

  it('are carried under codes that the reader has', () => {
    const known = new Set(PROBLEM_CODES.map(row => row.code));
    assert.deepEqual(
      carried.filter(code => !known.has(code)),
      [],
    );
  });
});
