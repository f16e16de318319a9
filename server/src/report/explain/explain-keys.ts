import { cribSpec, keyDoc, sheetSpec } from '../../setup/index.ts';
import { valueText } from '../../setup/manual.ts';
import type { KeyRow, Shape } from '../../setup/spec.ts';
import { type Explanation, partsOf } from './explanation.ts';

/** Every key of setup sheet and crib, by its path with `*` for names and numbers, and by the key alone. */
export function keyExplanations(): Explanation[] {
  const found = new Map<string, { row: KeyRow; files: string[] }>();
  for (const [file, shape] of [
    ['setup sheet', sheetSpec.shape],
    ['crib', cribSpec.shape],
  ] as const)
    for (const { path, row } of keysOf(shape, '')) {
      const there = found.get(path);
      if (there) there.files.push(file);
      else found.set(path, { row, files: [file] });
    }
  return [...found].map(([path, { row, files }]) => ({
    kind: 'key',
    name: path,
    title: `${row.key} in the ${files.join(' and the ')}`,
    also: [row.key],
    parts: partsOf([
      ['means', keyDoc(row)],
      ['value', valueText(row.shape).replaceAll('`', '"')],
      ['example', row.example && `"${row.key}": ${row.example}`, true],
    ]),
  }));
}

function* keysOf(shape: Shape, path: string): Generator<{ path: string; row: KeyRow }> {
  switch (shape.is) {
    case 'object':
      for (const row of shape.keys) {
        const at = path === '' ? row.key : `${path}.${row.key}`;
        yield { path: at, row };
        yield* keysOf(row.shape, at);
      }
      return;
    case 'map':
    case 'list':
      yield* keysOf(shape.of, `${path}.*`);
      return;
    case 'either':
      for (const option of shape.options) yield* keysOf(option, path);
  }
}
