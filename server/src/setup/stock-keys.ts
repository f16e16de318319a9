import type { Node } from 'jsonc-parser';
import type { Known } from './known.ts';
import { insideFolder, programEndings } from './paths.ts';
import { field, mapped, object, type Spec } from './spec.ts';
import { coordinate, oneOf, size, sizeOrNone, text, triple } from './spec-leaves.ts';

type Vector = readonly [number, number, number];

/** The raw part: a block, a bar, or what another program leaves. Lengths in mm. */
export type Stock =
  | { shape: 'block'; size_mm: Known<Vector>; zero_mm: Known<Vector> | undefined }
  | {
      shape: 'bar';
      diameter_mm: Known<number>;
      bore_mm: Known<number> | undefined;
      length_mm: Known<number> | undefined;
      face_mm: Known<number> | undefined;
    }
  | {
      shape: 'from';
      from: Known<string>;
      turn: Known<Turn> | undefined;
      /** Lathe: Z of the end face. */
      face_mm: Known<number> | undefined;
    };

export const turns = [
  'none',
  'flip-x',
  'flip-y',
  'turn-z-90',
  'turn-z-180',
  'turn-z-270',
  'other-end',
] as const;
/** How the part is turned over before the next operation. */
export type Turn = (typeof turns)[number];

const stockRows = {
  shape: field('shape', oneOf('block', 'bar'), 'A block or a round bar.', { example: '"block"' }),
  size_mm: field('size', triple(size()), 'Size of the block along X, Y and Z.', { example: '[100, 50, 25]' }),
  zero_mm: field('zero', triple(coordinate()), 'Where program zero sits, from the low corner of the stock.', {
    example: '[0, 0, 25]',
  }),
  diameter_mm: field('diameter', size(), 'Diameter of the bar.', { example: '40' }),
  bore_mm: field('bore', sizeOrNone(), 'Bore through the bar.', { example: '0' }),
  length_mm: field('length', size(), 'Length of the bar from its end face into the chuck.', {
    example: '80',
  }),
  face_mm: field(
    'face',
    coordinate(),
    'Z of the end face of the bar; with "from" on a lathe of the part as it is clamped now (left out: where it was).',
    { example: '1' },
  ),
  from: field('from', otherProgram(), 'A program beside this one: start from what it leaves.', {
    example: '"op10.nc"',
  }),
  turn: field(
    'turn',
    oneOf(...turns),
    'How the part is turned over after that program; on a lathe "other-end", clamped on the end that was cut, with "face".',
    { example: '"flip-x"' },
  ),
};

const belongs: Record<'block' | 'bar' | 'from', readonly (keyof typeof stockRows)[]> = {
  block: ['shape', 'size_mm', 'zero_mm'],
  bar: ['shape', 'diameter_mm', 'bore_mm', 'length_mm', 'face_mm'],
  from: ['from', 'turn', 'face_mm'],
};

/** The stock of a workpiece or of one work offset. */
export const stockSpec: Spec<Stock> = object(stockRows, (value, node, context): Stock | undefined => {
  const shape = value.from
    ? 'from'
    : (value.shape?.value ?? (value.size_mm ? 'block' : value.diameter_mm ? 'bar' : undefined));
  if (!shape) {
    if (Object.keys(value).length > 0)
      context.report('setup-conflict', node, `${context.path} needs "shape": "block" or "bar", or "from".`);
    return undefined;
  }
  for (const name of Object.keys(value) as (keyof typeof stockRows)[]) {
    if (belongs[shape].includes(name)) continue;
    const origin = value[name]?.origin;
    const place = { offset: origin?.offset ?? node.offset, length: origin?.length ?? node.length };
    context.report(
      'setup-key-unknown',
      place,
      `"${stockRows[name].key}" does not go with stock ${shape === 'from' ? '"from"' : `of shape "${shape}"`}.`,
    );
  }
  if (shape === 'from')
    return value.from && { shape, from: value.from, turn: value.turn, face_mm: value.face_mm };
  if (shape === 'block') {
    if (value.size_mm) return { shape, size_mm: value.size_mm, zero_mm: value.zero_mm };
    if (!hasKey(node, 'size'))
      context.report('setup-conflict', node, `${context.path}: a block needs "size".`);
    return undefined;
  }
  const { diameter_mm, bore_mm, length_mm, face_mm } = value;
  if (!diameter_mm) {
    if (!hasKey(node, 'diameter'))
      context.report('setup-conflict', node, `${context.path}: a bar needs "diameter".`);
    return undefined;
  }
  if (bore_mm && bore_mm.value >= diameter_mm.value) {
    context.report(
      'setup-range',
      { offset: bore_mm.origin.offset ?? node.offset, length: bore_mm.origin.length ?? node.length },
      `${context.path}: the bore is as wide as the bar.`,
    );
    return { shape, diameter_mm, bore_mm: undefined, length_mm, face_mm };
  }
  return { shape, diameter_mm, bore_mm, length_mm, face_mm };
});

function otherProgram(): Spec<string> {
  return mapped(text(), (value, node, context) => {
    const verdict = insideFolder(value, programEndings);
    if ('path' in verdict) return verdict.path;
    context.report('setup-path', node, `${context.path}: ${verdict.why}`);
    return undefined;
  });
}

/** A key that is there but could not be read has been reported already. */
function hasKey(node: Node, key: string): boolean {
  return (node.children ?? []).some(property => property.children?.[0]?.value === key);
}
