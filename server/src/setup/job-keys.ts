import { readHardness } from '../materials/hardness.ts';
import { field, list, map, mapped, object, type Read, type Spec, section } from './spec.ts';
import {
  coordinate,
  formed,
  number,
  oneOf,
  quantity,
  sizeOrNone,
  text,
  triple,
  truth,
} from './spec-leaves.ts';
import { stockSpec } from './stock-keys.ts';

const hardnessForm = { name: 'a hardness with its scale', pattern: '\\d', example: '95 HB' };
const hardness = formed(hardnessForm, readHardness);

const workpieceRows = {
  material: field(
    'material',
    text(),
    'Material of the workpiece by any usual designation, or the name of one in the crib.',
    { example: '"6061-T6"' },
  ),
  hardness: field('hardness', hardness, 'Hardness with its scale: HB, HRC or HV.', {
    example: '"95 HB"',
  }),
  heat_treat_after: field(
    'heat_treat_after',
    truth(),
    'Whether the part is heat treated after this operation (stress left by rubbing then moves it).',
    { example: 'true' },
  ),
  finish_ra_um: field(
    'finish_ra',
    quantity('roughness', { above: 0, most: 1000 }),
    'Roughness Ra that the drawing asks for, with its unit.',
    { example: '"0.8 um"' },
  ),
  stock: section('stock', stockSpec, 'The raw part, for the first work offset that is used.', {
    example: '{ "shape": "block", "size": [4, 2, 1], "zero": [0, 0, 1] }',
  }),
};
export type Workpiece = Read<typeof workpieceRows>;
export const workpieceSpec: Spec<Workpiece> = object(workpieceRows);

const workholdingRows = {
  grip: field('grip', oneOf('firm', 'fair', 'weak'), 'How well the part is held.', { example: '"firm"' }),
  note: field('note', text(), 'What holds it.', { example: '"vise, 3/4 in of grip"' }),
  overhang_mm: field('overhang', sizeOrNone(), 'How far the part stands out of its clamping.', {
    example: '40',
  }),
  force_n: field('force_n', quantity('force', { above: 0, most: 1e7 }), 'Clamping force in N.', {
    example: '15000',
  }),
  max_rpm: field(
    'max_rpm',
    number({ above: 0, most: 1_000_000 }),
    'Top speed that the chuck plate says, rev/min.',
    { example: '4000' },
  ),
};
export type Workholding = Read<typeof workholdingRows>;
export const workholdingSpec: Spec<Workholding> = object(workholdingRows);

export const coolants = ['flood', 'mist', 'air', 'through', 'dry'] as const;
export type Coolant = (typeof coolants)[number];

/** A part of space where no tool may go: something that holds the part. Corners in the work offset's coordinates, mm. */
export type KeepOut = {
  what: string;
  low_mm: readonly number[];
  high_mm: readonly number[];
  place: { offset: number; length: number };
};

const keepOutSpec: Spec<KeepOut> = object(
  {
    what: section('what', text(), 'What stands there.', { example: '"vise jaw"' }),
    box: section(
      'box',
      list(triple(coordinate()), { least: 2, most: 2, whole: true }),
      'Two opposite corners.',
      { example: '[[-1, 0, -1], [0, 4, 0.5]]' },
    ),
  },
  ({ what, box }, node, context) => {
    const [a, b] = box ?? [];
    const place = { offset: node.offset, length: node.length };
    if (a && b) {
      return {
        what: what ?? 'keep-out',
        low_mm: a.map((v, i) => Math.min(v, b[i] ?? v)),
        high_mm: a.map((v, i) => Math.max(v, b[i] ?? v)),
        place,
      };
    }
    if (!box) context.report('setup-type', node, `${context.path} needs "box", two corners.`);
    return undefined;
  },
);

const setupRows = {
  same_as: field('same_as', text(), 'The work offset whose stock, zero and keep-outs this one shares.', {
    example: '"G54"',
  }),
  stock: section('stock', stockSpec, 'The raw part at this work offset.'),
  zero_mm: field(
    'zero',
    triple(coordinate()),
    "Where this offset's zero sits, from the low corner of the stock.",
    { example: '[0, 0, 25]' },
  ),
  keep_out: section('keep_out', list(keepOutSpec, { most: 200 }), 'Boxes where no tool may go.', {
    example: '[{ "what": "vise jaw", "box": [[-1, 0, -1], [0, 4, 0.5]] }]',
  }),
};
export type WorkSetup = Read<typeof setupRows>;

const offsetForm = {
  what: 'a work offset',
  pattern: '^[Gg](5[4-9](\\.[1-9][0-9]?)?|54\\.1 ?[Pp][0-9]{1,3})$',
  example: 'G54',
};
/** Setups by work offset, `G54`, `G59.1`, `G54.1 P3`. */
export const setupsSpec: Spec<Map<string, WorkSetup>> = mapped(
  map(object(setupRows), offsetForm, key =>
    new RegExp(offsetForm.pattern).test(key) ? key.toUpperCase().replace(/ ?P/, ' P') : undefined,
  ),
  (setups, _node, context) => {
    for (const [name, { same_as }] of setups) {
      const target = same_as && setups.get(same_as.value.toUpperCase());
      if (!same_as || (target && !target.same_as && same_as.value.toUpperCase() !== name)) continue;
      const place = { offset: same_as.origin.offset ?? 0, length: same_as.origin.length ?? 0 };
      context.report(
        'setup-reference',
        place,
        target
          ? `${name}: same_as must name an offset that is written out.`
          : `${name}: no setup "${same_as.value.slice(0, 20)}" here.`,
      );
    }
    return setups;
  },
);

const quoteRows = {
  time_s: field('time', quantity('time', { above: 0, most: 1e8 }), 'Quoted time a part, with its unit.', {
    example: '"8 min"',
  }),
  parts: field('parts', number({ whole: true, least: 1, most: 1e9 }), 'How many parts the job is.', {
    example: '25',
  }),
  parts_per_cycle: field(
    'parts_per_cycle',
    number({ whole: true, least: 1, most: 100_000 }),
    'How many parts one run of the program makes.',
    { example: '1' },
  ),
  rate_per_hour: field('rate_per_hour', number({ least: 0, most: 1e7 }), 'Shop rate an hour.', {
    example: '85',
  }),
  currency: field(
    'currency',
    formed({ name: 'a currency', pattern: '^[A-Z]{3}$', example: 'USD' }, v =>
      /^[A-Z]{3}$/.test(v) ? v : undefined,
    ),
    'Currency of the rate (ISO 4217).',
    { example: '"USD"' },
  ),
};
export type Quote = Read<typeof quoteRows>;
export const quoteSpec: Spec<Quote> = object(quoteRows);

/** A finding that this job silences, with the reason. */
export type Silence = {
  code: string;
  tool: number | undefined;
  reason: string;
  place: { offset: number; length: number; line: number | undefined };
};

export const silenceSpec: Spec<Silence[]> = list(
  object(
    {
      code: section('code', text(), 'Code of the finding.', { example: '"chip-load-low"' }),
      tool: section('tool', number({ whole: true, least: 0, most: 99_999_999 }), 'Only for this tool.', {
        example: '3',
      }),
      reason: section('reason', text(), 'Why it is fine here; needed.', {
        example: '"proven on the last three jobs"',
      }),
    },
    ({ code, tool, reason }, node, context): Silence | undefined => {
      if (code?.trim() && reason?.trim()) {
        return {
          code: code.trim(),
          tool,
          reason: reason.trim(),
          place: { offset: node.offset, length: node.length, line: context.origin(node).line },
        };
      }
      context.report(
        'setup-conflict',
        node,
        `${context.path} needs a code and a reason; it silences nothing.`,
      );
      return undefined;
    },
  ),
  { most: 1000 },
);
