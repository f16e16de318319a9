import assert from 'node:assert/strict';
import fc from 'fast-check';
import { QUANTITIES } from '../../../server/src/cutting/quantities.ts';
import { explain, explanations, nearNames } from '../../../server/src/report/explain/explain.ts';
import type { Explained } from '../../../server/src/report/explain/explanation.ts';
import { explainMarkdown, explainText } from '../../../server/src/report/explain/write.ts';
import { findingCodes } from '../../../server/src/report/finding-codes.ts';
import { rules } from '../../../server/src/review/rules/index.ts';
import { CODES, codeName, LETTERS, PROBLEM_CODES } from '../../../server/src/rs274/index.ts';
import { sheetProblems } from '../../../server/src/setup/index.ts';

const kinds = (name: string): Explained[] => explain(name).map(each => each.kind);

describe('explain', () => {
  const tables: [what: string, names: readonly string[], kind: Explained][] = [
    ['rule', rules.map(rule => rule.code), 'finding'],
    ['problem of sheet and crib', Object.keys(sheetProblems), 'finding'],
    ['quantity', Object.keys(QUANTITIES), 'quantity'],
    ['title of a quantity', Object.values(QUANTITIES).map(row => row.title), 'quantity'],
    ['code', CODES.map(codeName), 'code'],
    ['letter', Object.keys(LETTERS), 'letter'],
  ];
  for (const [what, names, kind] of tables)
    it(`answers for every ${what}`, () => {
      assert.ok(names.length > 5);
      for (const name of names) assert.ok(kinds(name).includes(kind), name);
    });

  it('answers for every problem of the reader', () => {
    for (const { code } of PROBLEM_CODES) assert.ok(explain(code).length > 0, code);
  });

  it('answers for every key of sheet and crib, by its path and by its own name', () => {
    const keys = explanations().filter(({ kind }) => kind === 'key');
    assert.ok(keys.length > 80, String(keys.length));
    for (const { name } of keys) {
      assert.ok(kinds(name).includes('key'), name);
      assert.ok(kinds(name.split('.').at(-1) ?? '').includes('key'), name);
    }
  });

  it('says every meaning of a code with several', () => {
    for (const row of CODES) {
      const said = explain(codeName(row)).map(each => each.title);
      assert.ok(said.includes(row.means), codeName(row));
    }
  });

  it('leaves nothing without a text, in terminal and markdown', () => {
    for (const { name, parts } of explanations()) {
      assert.ok(parts.length > 0, name);
      for (const { label, text } of parts) assert.ok(label !== '' && text.trim() !== '', `${name}: ${label}`);
      for (const text of [explainText(name), explainMarkdown(name)])
        assert.ok(text && !/undefined|NaN|\[object/.test(text), name);
    }
  });

  it('keeps to the width of a terminal', () => {
    for (const { name } of explanations())
      for (const line of explainText(name)?.split('\n') ?? [])
        assert.ok(line.length <= 110 || !/ .{80,} /.test(line.trim()), `${name}: ${line}`);
  });

  const same: [written: string, name: string][] = [
    ['g083', 'G83'],
    ['G 43.1', 'G43.1'],
    ['m03', 'M3'],
    ['Chip Load', 'chip_load_mm'],
    ['CHIP_LOAD_LOW', 'chip-load-low'],
    ['chip-load-mm', 'chip_load_mm'],
    ['tools.3.diameter', 'tools.*.diameter'],
    ['setups.G54.zero', 'setups.*.zero'],
    ['first contact', 'first-contact'],
    ['f', 'F'],
  ];
  for (const [written, name] of same)
    it(`takes ${written} as ${name}`, () => assert.ok(explain(written).some(each => each.name === name)));

  const near: [written: string, wanted: string][] = [
    ['chip-lod-low', 'chip-load-low'],
    ['chipload-low', 'chip-load-low'],
    ['surface_sped', 'surface_speed_m_min'],
    ['deflection', 'deflection_mm'],
    ['tool.3.stickout', 'tools.*.stickout'],
  ];
  for (const [written, wanted] of near)
    it(`offers ${wanted} for ${written}`, () => {
      assert.deepEqual(explain(written), []);
      assert.ok(nearNames(written).includes(wanted), nearNames(written).join(', '));
    });

  it('knows no name that it does not have, and never throws', () => {
    for (const name of [
      '',
      ' ',
      'G-1',
      'G1.25',
      'M-3',
      'nothing-like-this-exists',
      'constructor',
      '__proto__',
      'x'.repeat(10_000),
    ])
      assert.deepEqual(explain(name), [], name.slice(0, 40));
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), name => {
        explainText(name);
        explainMarkdown(name);
        assert.ok(nearNames(name).length <= 6);
      }),
      { numRuns: 100, seed: 7 },
    );
  });

  it('has a row for each code that a finding can carry', () => {
    const codes = findingCodes.map(row => row.code);
    assert.equal(new Set(codes).size, codes.length);
    for (const row of findingCodes)
      for (const text of [row.title, row.means, row.cure, row.fine_when, row.source])
        assert.ok(text.trim() !== '', row.code);
  });
});
