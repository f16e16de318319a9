import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { generatedSetupFiles } from '../../../server/src/setup/generated.ts';
import { cribSpec, keyAt, sheetSpec, toolKinds } from '../../../server/src/setup/index.ts';
import { readSetupSheet } from '../../../server/src/setup/sheet.ts';
import type { KeyRow, Shape } from '../../../server/src/setup/spec.ts';

const root = new URL('../../../', import.meta.url);

/** Every row of the table with its path. */
function rowsOf(shape: Shape, path = ''): [path: string, row: KeyRow][] {
  switch (shape.is) {
    case 'object':
      return shape.keys.flatMap((row): [string, KeyRow][] => [
        [`${path}.${row.key}`, row],
        ...rowsOf(row.shape, `${path}.${row.key}`),
      ]);
    case 'map':
    case 'list':
      return rowsOf(shape.of, `${path}.*`);
    case 'either':
      return shape.options.flatMap(option => rowsOf(option, path));
    default:
      return [];
  }
}

describe('setup: generated files', () => {
  for (const { path, text } of generatedSetupFiles()) {
    it(`${path} is fresh`, () => {
      const file = fileURLToPath(new URL(path, root));
      if (process.env.UPDATE === '1') {
        mkdirSync(dirname(file), { recursive: true });
        writeFileSync(file, text);
      }
      const found = existsSync(file) ? readFileSync(file, 'utf8') : '';
      assert.ok(found === text, `${path} is stale; renew it with: npm run generate`);
    });
  }
  for (const [name, { shape }] of [
    ['sheet', sheetSpec],
    ['crib', cribSpec],
  ] as const) {
    it(`each key of the ${name} says what it is and has an example that is JSON`, () => {
      for (const [path, row] of rowsOf(shape)) {
        assert.match(row.doc, /^[A-Z\u0027].{10,}\.$/s, `${path}: "${row.doc}"`);
        if (row.example !== undefined) assert.doesNotThrow(() => JSON.parse(row.example ?? ''), path);
      }
    });
  }
  it('the examples of the table read without a problem', () => {
    const tool =
      sheetSpec.shape.is === 'object'
        ? rowsOf(sheetSpec.shape).filter(([path]) => /^\.tools\.\*\.\w+$/.test(path))
        : [];
    assert.ok(tool.length > 25);
    for (const [path, row] of tool) {
      const text = `{ "units": "inch", "tools": { "1": { "${row.key}": ${row.example} } } }`;
      assert.deepEqual(readSetupSheet(text, 'x').problems, [], path);
    }
  });
});

/** Table place at the mark | in a text. */
function at(marked: string) {
  const offset = marked.indexOf('|');
  return keyAt(sheetSpec.shape, marked.replace('|', ''), offset);
}

describe('setup: the table at a place', () => {
  it('gives the keys that may stand there', () => {
    assert.ok(at('{ "|" }').keys.some(({ key }) => key === 'workpiece'));
    assert.ok(at('{ "tools": { "1": { "|" } } }').keys.some(({ key }) => key === 'teeth'));
    assert.ok(at('{ "machine": { "spindle": { "|" } } }').keys.some(({ key }) => key === 'max_rpm'));
    assert.deepEqual(at('{ "workpiece": "|" }').keys, []);
  });
  it('gives the values that may stand there', () => {
    assert.deepEqual(at('{ "tools": { "1": { "kind": "|" } } }').values, [...toolKinds]);
    assert.deepEqual(at('{ "coolant": | }').values, ['flood', 'mist', 'air', 'through', 'dry']);
  });
  it('gives the row of a key for hover', () => {
    assert.equal(at('{ "tools": { "1": { "dia|meter": 5 } } }').row?.iso13399, 'DC');
    assert.equal(at('{ "tools": { "1": { "diameter": |5 } } }').row?.iso13399, 'DC');
    assert.equal(at('{ "tools": { "1": { "nothing": |5 } } }').row, undefined);
  });
});
