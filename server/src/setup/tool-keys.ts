import type { Node } from 'jsonc-parser';
import { type Substrate, type ToolKind, toolKinds } from '../materials/tool-kind.ts';
import type { ReadContext } from './read-context.ts';
import { field, list, map, mapped, object, type Read, type Spec, section } from './spec.ts';
import {
  coordinate,
  number,
  oneOf,
  pitch,
  quantity,
  range,
  size,
  sizeOrNone,
  text,
  truth,
} from './spec-leaves.ts';

export { type Substrate, type ToolKind, toolKinds };

const substrates = ['hss', 'carbide', 'ceramic', 'cbn', 'diamond'] as const satisfies readonly Substrate[];

export const wears = ['new', 'used', 'dull'] as const;
export type Wear = (typeof wears)[number];

const angle = (least: number, most: number) => quantity('angle', { least, most });

const maker = object({
  surface_speed_m_min: field(
    'surface_speed',
    range(quantity('surface_speed', { above: 0, most: 10_000 })),
    'Lowest and highest cutting speed the maker gives for this tool in this material.',
    { iso13399: 'VC', example: '[250, 400]' },
  ),
  chip_load_mm: field(
    'chip_load',
    range(quantity('chip_load', { above: 0, most: 10 })),
    'Lowest and highest feed per tooth the maker gives.',
    { iso13399: 'FZ', example: '[0.002, 0.004]' },
  ),
  feed_per_rev_mm: field(
    'feed_per_rev',
    range(quantity('feed_per_rev', { above: 0, most: 50 })),
    'Lowest and highest feed per revolution the maker gives.',
    { iso13399: 'FN', example: '[0.1, 0.25]' },
  ),
  source: field('source', text(), 'Where these figures are printed: catalogue and page, or data sheet.', {
    example: '"catalogue 2025, page 112"',
  }),
});

/** A part of the plane of the axis, from the point that the program moves; mm. */
export interface HolderBox {
  /** From and to along Z. */
  z_mm: readonly [number, number];
  /** From and to away from the axis. */
  x_mm: readonly [number, number];
}

const holderBox = object(
  {
    z: section('z', range(coordinate()), 'From and to along Z.', { example: '[0, 25]' }),
    x: section('x', range(coordinate()), 'From and to away from the axis, as a radius.', {
      example: '[6, 120]',
    }),
  },
  ({ z, x }, node, context): HolderBox | undefined => {
    if (z && x) return { z_mm: z, x_mm: x };
    const given = (node.children ?? []).map(property => property.children?.[0]?.value);
    if (!given.includes('z') || !given.includes('x'))
      context.report('setup-conflict', node, `${context.path} needs "z" and "x", from and to of each.`);
    return undefined;
  },
);

const toolRows = {
  crib: field('crib', text(), 'The id of a tool in crib.json; what is stated here wins over it.', {
    example: '"em-12-3fl"',
  }),
  kind: field('kind', oneOf(...toolKinds), 'What kind of tool it is; decides which sums apply.', {
    example: '"end-mill"',
  }),
  diameter_mm: field(
    'diameter',
    size(),
    'Cutting diameter. For a tap or thread mill the thread or cutter diameter, for a drill its nominal size.',
    { iso13399: 'DC', example: '"1/2 in"' },
  ),
  teeth: field(
    'teeth',
    number({ whole: true, least: 1, most: 200 }),
    'Number of effective teeth or flutes that share the feed.',
    { iso13399: 'ZEFP', example: '3' },
  ),
  corner_radius_mm: field(
    'corner_radius',
    sizeOrNone(),
    'Corner radius of a milling cutter; 0 is a sharp corner.',
    { iso13399: 'RE', example: '0.5' },
  ),
  nose_radius_mm: field('nose_radius', sizeOrNone(), 'Nose radius of a turning insert or bar.', {
    iso13399: 'RE',
    example: '"1/32 in"',
  }),
  tip_direction: field(
    'tip_direction',
    number({ whole: true, least: 0, most: 9 }),
    'Where the tip of a turning tool lies seen from the centre of its nose: 1 +X +Z, 2 +X -Z (boring), 3 -X -Z (outside turning), 4 -X +Z, 5 +Z, 6 +X, 7 -Z, 8 -X, 0 or 9 the centre. With it and the nose radius G41 and G42 are followed.',
    { example: '3' },
  ),
  edge_radius_mm: field(
    'edge_radius',
    quantity('length', { least: 0, most: 1 }),
    'Radius of the cutting edge itself (hone); decides the thinnest chip that forms.',
    { example: '"15 um"' },
  ),
  flute_length_mm: field('flute_length', size(), 'Length of flute, the greatest depth the edges can cut.', {
    iso13399: 'APMX',
    example: '"1.25 in"',
  }),
  stickout_mm: field(
    'stickout',
    size(),
    'How far the tool stands out of its holder; for a bar, of its clamp.',
    { iso13399: 'LPR', example: '38' },
  ),
  shank_diameter_mm: field('shank_diameter', size(), 'Diameter of the shank.', {
    iso13399: 'DMM',
    example: '12',
  }),
  holder_diameter_mm: field('holder_diameter', size(), 'Largest diameter of the holder near the tool.', {
    iso13399: 'BD1',
    example: '40',
  }),
  point_angle_deg: field(
    'point_angle_deg',
    angle(1, 180),
    'Included angle of the point of a drill, spot drill or chamfer mill.',
    { iso13399: 'SIG', example: '118' },
  ),
  edge_angle_deg: field(
    'edge_angle_deg',
    angle(0.01, 120),
    'Tool cutting edge angle, between edge and feed plane; 90 is a square shoulder. Not together with lead_angle_deg.',
    { iso13399: 'KAPR', example: '45' },
  ),
  lead_angle_deg: field(
    'lead_angle_deg',
    angle(-30, 85),
    'Tool lead angle: 90 less the edge angle. Not together with edge_angle_deg.',
    { iso13399: 'PSIR', example: '0' },
  ),
  helix_deg: field('helix_deg', angle(-80, 80), 'Helix angle of the flutes.', {
    iso13399: 'FHA',
    example: '38',
  }),
  pitch_mm: field(
    'pitch',
    pitch(),
    'Pitch of the thread a tap, thread mill or threading tool makes; a thread name will do.',
    { iso13399: 'TP', example: '"M6x1"' },
  ),
  hand: field('hand', oneOf('right', 'left'), 'Hand of cut: right cuts with M3, left with M4.', {
    iso13399: 'HAND',
    example: '"right"',
  }),
  center_cutting: field(
    'center_cutting',
    truth(),
    'Whether the end mill cuts to its centre and may plunge.',
    { iso13399: 'CCC', example: 'true' },
  ),
  width_mm: field('width', size(), 'Width of cut of a grooving, parting or slotting tool.', {
    iso13399: 'CW',
    example: '3',
  }),
  substrate: field('substrate', oneOf(...substrates), 'What the cutting edge is made of.', {
    iso13399: 'SUBSTRATE',
    example: '"carbide"',
  }),
  coating: field('coating', text(), 'Coating of the edge, or "none".', {
    iso13399: 'COATING',
    example: '"AlTiN"',
  }),
  wear: field('wear', oneOf(...wears), 'State of the edge.', { example: '"used"' }),
  runout_mm: field(
    'runout',
    quantity('length', { least: 0, most: 5 }),
    'Total indicator reading at the edge.',
    { example: '"0.0005 in"' },
  ),
  length_offset: field(
    'length_offset',
    number({ whole: true, least: 0, most: 99_999_999 }),
    'Number of the length offset (H) that belongs to this tool.',
    { example: '1' },
  ),
  radius_offset: field(
    'radius_offset',
    number({ whole: true, least: 0, most: 99_999_999 }),
    'Number of the radius offset (D) that belongs to this tool.',
    { example: '21' },
  ),
  sister_of: field(
    'sister_of',
    number({ whole: true, least: 0, most: 99_999_999 }),
    'Number of the tool this one stands in for when that is worn.',
    { example: '12' },
  ),
  insert: field(
    'insert',
    text(),
    'Designation of the insert (ISO 1832); gives shape, size and nose radius.',
    { example: '"CNMG120408"' },
  ),
  holder: field('holder', text(), 'Designation of the tool holder (ISO 5608); gives the edge angle.', {
    example: '"PCLNR2525M12"',
  }),
  holder_box: field(
    'holder_box',
    holderBox,
    'Lathe: what the holder takes up, from the programmed point: along Z (+ away from the chuck) and away from the axis. Looked at against the keep-out boxes.',
    { example: '{ "z": [0, 25], "x": [6, 120] }' },
  ),
  maker: section('maker', maker, "The tool maker's own figures; they win over handbook tables.", {
    example: '{ "chip_load": [0.05, 0.08], "source": "data sheet" }',
  }),
};

export type ToolEntry = Omit<Read<typeof toolRows>, 'lead_angle_deg'>;

/** Properties of a tool, each with how it is known. */
export type ToolProperties = Omit<ToolEntry, 'crib'>;
export type ToolProperty = keyof ToolProperties;

/** One tool of a setup sheet. A lead angle is turned into the edge angle. */
export const toolSpec: Spec<ToolEntry> = object(toolRows, leadToEdgeAngle);

/** One tool of a crib: a tool, and what comments call it. */
export type CribTool = ToolEntry & { called?: { text: string; offset: number; length: number }[] };

const calledTexts = list(
  mapped(text(), (value, node) => ({ text: value, offset: node.offset, length: node.length })),
  { most: 500 },
);

/** One tool of a crib. */
export const cribToolSpec: Spec<CribTool> = object(
  {
    ...toolRows,
    called: section(
      'called',
      calledTexts,
      'What tool comments call this tool. Confirmed once by a person, recognised in every later program. Only texts that hold a size count.',
      { example: '["1/2 3FL EM"]' },
    ),
  },
  (tool, node, context) => {
    const { called, ...rest } = tool;
    const entry = leadToEdgeAngle(rest, node, context);
    return called ? { ...entry, called } : entry;
  },
);

export const toolNumber = { what: 'a tool number', pattern: '^[0-9]{1,8}$', example: '7' };

/** Tools by their number. */
export const toolsByNumber = <T>(of: Spec<T>): Spec<Map<number, T>> =>
  map(of, toolNumber, key => (/^\d{1,8}$/.test(key) ? Number(key) : undefined));

function leadToEdgeAngle(tool: Read<typeof toolRows>, node: Node, context: ReadContext): ToolEntry {
  const { lead_angle_deg, edge_angle_deg, ...rest } = tool;
  if (!lead_angle_deg) return edge_angle_deg ? { ...rest, edge_angle_deg } : rest;
  const { origin } = lead_angle_deg;
  if (!edge_angle_deg) return { ...rest, edge_angle_deg: { value: 90 - lead_angle_deg.value, origin } };
  const place = { offset: origin.offset ?? node.offset, length: origin.length ?? node.length };
  context.report(
    'setup-conflict',
    place,
    `${context.path} has edge_angle_deg and lead_angle_deg; give one. Neither counts.`,
  );
  return rest;
}
