import { getLocation } from 'jsonc-parser';
import type { KeyRow, Shape } from './spec.ts';

/** What the table says at a place of a sheet or crib: for completion and hover. */
export type TablePlace = {
  /** Path of keys from the top. */
  path: string[];
  /** The row of the key that the place is in or behind. */
  row: KeyRow | undefined;
  /** Keys that may stand here, when the place is where a key goes. */
  keys: readonly KeyRow[];
  /** Values that may stand here, when the place is where a value of a few words goes. */
  values: readonly string[];
  atKey: boolean;
};

/** Finds the row of the table for an offset in the text of a sheet or crib. */
export function keyAt(shape: Shape, text: string, offset: number): TablePlace {
  const location = getLocation(text, offset);
  const path = location.path.map(String);
  const { isAtPropertyKey: atKey } = location;
  const parents = follow(shape, path.slice(0, -1));
  const last = path.at(-1);
  const row = last === undefined ? undefined : rowIn(parents, last);
  const keys = atKey ? keysOf(parents) : [];
  const values = atKey ? [] : valuesOf(follow(shape, path));
  return { path, row, keys, values, atKey };
}

/** Every shape that may stand at a path of keys. */
export function follow(shape: Shape, path: readonly string[]): Shape[] {
  let shapes = [shape];
  for (const key of path) shapes = shapes.flatMap(each => stepInto(each, key));
  return shapes;
}

function stepInto(shape: Shape, key: string): Shape[] {
  switch (shape.is) {
    case 'object':
      return shape.keys.filter(row => row.key === key).map(row => row.shape);
    case 'map':
    case 'list':
      return [shape.of];
    case 'either':
      return shape.options.flatMap(option => stepInto(option, key));
    default:
      return [];
  }
}

function rowIn(shapes: readonly Shape[], key: string): KeyRow | undefined {
  return keysOf(shapes).find(row => row.key === key);
}

function keysOf(shapes: readonly Shape[]): KeyRow[] {
  return shapes.flatMap(shape => {
    if (shape.is === 'object') return [...shape.keys];
    return shape.is === 'either' ? keysOf(shape.options) : [];
  });
}

function valuesOf(shapes: readonly Shape[]): string[] {
  return shapes.flatMap(shape => {
    if (shape.is === 'text') return [...(shape.values ?? [])];
    if (shape.is === 'truth') return ['true', 'false'];
    return shape.is === 'either' ? valuesOf(shape.options) : [];
  });
}
