import assert from 'node:assert/strict';
import { ruleFor, rules } from '../../../server/src/review/rules/index.ts';
import { reviewText, splitMarks } from './check.ts';

const SENTENCES = ['title', 'means', 'cure', 'fine_when', 'source'] as const;

describe('rules', () => {
  it('stand in the table once, in the order of their codes', () => {
    const codes = rules.map(rule => rule.code);
    assert.deepEqual(codes, [...new Set(codes)].sort());
  });

  for (const rule of rules) {
    describe(rule.code, () => {
      it('says what it is, why it hurts, what to do, when it is fine, and where it is from', () => {
        for (const key of SENTENCES) assert.notEqual(rule[key].trim(), '', key);
        assert.match(rule.code, /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/);
        for (const code of [...(rule.explains ?? []), ...(rule.explains_everywhere ?? [])])
          assert.ok(ruleFor(code), `explains ${code}, which is no rule`);
      });
      it('has a case that must be flagged and two that must stay silent', () => {
        assert.ok(rule.flagged.length >= 1, 'flagged');
        assert.ok(rule.silent.length >= 2, 'silent');
      });
      for (const given of rule.flagged) {
        it(`flags: ${given.name}`, () => {
          const { program, marks } = splitMarks(given.program);
          assert.ok(marks.length > 0, 'the case marks no place');
          const found = reviewText(program, given).findings.filter(finding => finding.code === rule.code);
          const places = found.flatMap(f => [
            { line: f.line, column: f.column, end_column: f.end_column },
            ...(f.related ?? []).map(place => ({ line: place.line })),
          ]);
          for (const mark of marks) {
            const hit = places.find(
              place =>
                place.line === mark.line &&
                (!('column' in place) ||
                  (place.column === mark.column && place.end_column === mark.end_column)),
            );
            assert.ok(
              hit,
              `nothing at line ${mark.line + 1}, columns ${mark.column + 1} to ${mark.end_column + 1}; found ${JSON.stringify(found)}`,
            );
          }
          assert.equal(places.length, marks.length, JSON.stringify(found, null, 1));
        });
      }
      for (const given of rule.silent) {
        it(`stays silent: ${given.name}`, () => {
          const { program } = splitMarks(given.program);
          const found = reviewText(program, given).findings.filter(finding => finding.code === rule.code);
          assert.deepEqual(found, []);
        });
      }
    });
  }
});
