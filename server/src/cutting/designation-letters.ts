/** Letters of insert and holder designations: ISO 1832, ISO 5608, ISO 6261, ANSI B212.4 and B212.5, all from memory. */

export interface InsertShape {
  readonly letter: string;
  readonly name: string;
  readonly corner_angle_deg?: number;
  /** Edge length over inscribed circle; undefined where the circle does not follow from the edge. */
  readonly edge_per_circle?: number;
}

const rad = Math.PI / 180;
const rhombic = (letter: string, angle: number): InsertShape => ({
  letter,
  name: `${angle} deg rhombic`,
  corner_angle_deg: angle,
  edge_per_circle: 1 / Math.sin(angle * rad),
});
const regular = (letter: string, name: string, corners: number): InsertShape => ({
  letter,
  name,
  corner_angle_deg: 180 - 360 / corners,
  edge_per_circle: Math.tan((180 / corners) * rad),
});
const oblong = (letter: string, angle: number): InsertShape => ({
  letter,
  name: angle === 90 ? 'rectangular' : `${angle} deg parallelogram`,
  corner_angle_deg: angle,
});

const shapes = (): readonly InsertShape[] => [
  oblong('A', 85),
  oblong('B', 82),
  oblong('K', 55),
  oblong('L', 90),
  rhombic('C', 80),
  rhombic('D', 55),
  rhombic('E', 75),
  rhombic('F', 50),
  rhombic('M', 86),
  rhombic('V', 35),
  regular('H', 'hexagonal', 6),
  regular('O', 'octagonal', 8),
  regular('P', 'pentagonal', 5),
  regular('S', 'square', 4),
  regular('T', 'triangular', 3),
  { letter: 'R', name: 'round', edge_per_circle: 1 },
  // Trigon: corners of 80 and 160 degrees in turn, so the edge is r (cot 40 + cot 80).
  {
    letter: 'W',
    name: 'trigon',
    corner_angle_deg: 80,
    edge_per_circle: (1 / Math.tan(40 * rad) + 1 / Math.tan(80 * rad)) / 2,
  },
];

export const INSERT_SHAPES: ReadonlyMap<string, InsertShape> = /* @__PURE__ */ (() =>
  new Map(shapes().map(shape => [shape.letter, shape])))();

/** Normal clearance of the insert, degrees; `O` is given in words by the maker. */
export const INSERT_CLEARANCE_DEG: Readonly<Record<string, number>> = {
  A: 3,
  B: 5,
  C: 7,
  D: 15,
  E: 20,
  F: 25,
  G: 30,
  N: 0,
  P: 11,
};

type Spread = readonly [least: number, most: number];

/** Plus-or-minus tolerance, mm, on inscribed circle, corner height m and thickness; the spread goes with the size. */
export const INSERT_TOLERANCES_MM: Readonly<
  Record<string, { circle: Spread; corner: Spread; thickness: number }>
> = {
  A: { circle: [0.025, 0.025], corner: [0.005, 0.005], thickness: 0.025 },
  F: { circle: [0.013, 0.013], corner: [0.005, 0.005], thickness: 0.025 },
  C: { circle: [0.025, 0.025], corner: [0.013, 0.013], thickness: 0.025 },
  H: { circle: [0.013, 0.013], corner: [0.013, 0.013], thickness: 0.025 },
  E: { circle: [0.025, 0.025], corner: [0.025, 0.025], thickness: 0.025 },
  G: { circle: [0.025, 0.025], corner: [0.025, 0.025], thickness: 0.13 },
  J: { circle: [0.05, 0.15], corner: [0.005, 0.005], thickness: 0.025 },
  K: { circle: [0.05, 0.15], corner: [0.013, 0.013], thickness: 0.025 },
  L: { circle: [0.05, 0.15], corner: [0.025, 0.025], thickness: 0.025 },
  M: { circle: [0.05, 0.15], corner: [0.08, 0.2], thickness: 0.13 },
  N: { circle: [0.05, 0.15], corner: [0.08, 0.2], thickness: 0.025 },
  U: { circle: [0.08, 0.25], corner: [0.13, 0.38], thickness: 0.13 },
};

/** How the insert is held and where its chip breaker is. */
export const INSERT_FIXING: Readonly<Record<string, string>> = {
  N: 'no hole, no chip breaker',
  R: 'no hole, chip breaker on one side',
  F: 'no hole, chip breaker on both sides',
  A: 'hole, no chip breaker',
  M: 'hole, chip breaker on one side',
  G: 'hole, chip breaker on both sides',
  W: 'hole countersunk 40 to 60 deg on one side, no chip breaker',
  T: 'hole countersunk 40 to 60 deg on one side, chip breaker on one side',
  Q: 'hole countersunk 40 to 60 deg on both sides, no chip breaker',
  U: 'hole countersunk 40 to 60 deg on both sides, chip breaker on both sides',
  B: 'hole countersunk 70 to 90 deg on one side, no chip breaker',
  H: 'hole countersunk 70 to 90 deg on one side, chip breaker on one side',
  C: 'hole countersunk 70 to 90 deg on both sides, no chip breaker',
  J: 'hole countersunk 70 to 90 deg on both sides, chip breaker on both sides',
  X: 'special',
};

/** Sizes of inscribed circles, mm: the inch series that both systems share. */
export const INSCRIBED_CIRCLES_MM: readonly number[] = /* @__PURE__ */ [
  5, 6, 7, 8, 10, 12, 16, 20, 24, 28, 32, 40,
].map(thirtyseconds => (thirtyseconds * 25.4) / 32);

/** Thickness by its ISO 1832 figures, mm: thirty-seconds and sixteenths of an inch. */
export const INSERT_THICKNESS_MM: Readonly<Record<string, number>> = {
  '01': 1.5875,
  T1: 1.984375,
  '02': 2.38125,
  T2: 2.778125,
  '03': 3.175,
  T3: 3.96875,
  '04': 4.7625,
  '05': 5.55625,
  '06': 6.35,
  '07': 7.9375,
  '09': 9.525,
  '12': 12.7,
};

/** Edge angle of face-milling inserts with a corner chamfer, degrees (first letter in place of the nose radius). */
export const CORNER_CHAMFER_DEG: Readonly<Record<string, number>> = { A: 45, D: 60, E: 75, F: 85, P: 90 };

/** Tool cutting edge angle KAPR by style letter of a holder, degrees. `X` is special; `Q` is not the same everywhere. */
export const HOLDER_EDGE_ANGLE_DEG: Readonly<Record<string, number>> = {
  A: 90,
  B: 75,
  C: 90,
  D: 45,
  E: 60,
  F: 90,
  G: 90,
  H: 107.5,
  J: 93,
  K: 75,
  L: 95,
  M: 50,
  N: 63,
  P: 117.5,
  R: 75,
  S: 45,
  T: 60,
  U: 93,
  V: 72.5,
  W: 60,
  Y: 85,
};

/**
 * Distance of the corner from the far side of the shank, by the width of the shank (8, 10, 12, 16, 20, 25, 32, 40 mm), mm: the f series of
 * ISO 5608, from memory. The first is that of styles whose corner lies on the middle of the shank.
 */
const SHANK_WIDTHS_MM = [8, 10, 12, 16, 20, 25, 32, 40];
const F_SERIES_MM: readonly (readonly [styles: string, f: readonly number[]])[] = [
  ['DEMNV', [4, 5, 6, 8, 10, 12.5, 16, 20]],
  ['BT', [7, 9, 11, 13, 17, 22, 27, 35]],
  ['A', [8.5, 10.5, 12.5, 16.5, 20.5, 25.5, 33, 41]],
  ['R', [9, 11, 13, 17, 22, 27, 35, 43]],
  ['FGHJKLS', [10, 12, 16, 20, 25, 32, 40, 50]],
];

/** Distance of the corner from the far side of the shank for a style letter and a width, mm; undefined where ISO 5608 has none. */
export function cornerToFarSide(style: string, width_mm: number): number | undefined {
  const [, series] = F_SERIES_MM.find(([styles]) => styles.includes(style)) ?? [];
  return series?.[SHANK_WIDTHS_MM.indexOf(width_mm)];
}

/** Styles that mean the same edge angle in the inch system. */
export const INCH_HOLDER_STYLES = 'ABDEFGJKLNRSTUV';

/** How a holder clamps its insert. */
export const HOLDER_CLAMPING: Readonly<Record<string, string>> = {
  C: 'clamped from the top',
  D: 'rigid clamp from the top and through the hole',
  M: 'clamped from the top and through the hole',
  P: 'clamped through the hole',
  S: 'screwed through the hole',
  W: 'wedge clamp',
};

/** Tool length by letter, mm. */
export const HOLDER_LENGTH_MM: Readonly<Record<string, number>> = {
  A: 32,
  B: 40,
  C: 50,
  D: 60,
  E: 70,
  F: 80,
  G: 90,
  H: 100,
  J: 110,
  K: 125,
  L: 140,
  M: 150,
  N: 160,
  P: 170,
  Q: 180,
  R: 200,
  S: 250,
  T: 300,
  U: 350,
  V: 400,
  W: 450,
  Y: 500,
};

/** What the first letter of a boring bar says (ISO 6261). */
export const BAR_BODY: Readonly<Record<string, { readonly text: string; readonly carbide: boolean }>> = {
  S: { text: 'steel', carbide: false },
  A: { text: 'steel, coolant through', carbide: false },
  B: { text: 'steel, damped', carbide: false },
  D: { text: 'steel, damped, coolant through', carbide: false },
  C: { text: 'carbide with steel head', carbide: true },
  E: { text: 'carbide with steel head, coolant through', carbide: true },
  F: { text: 'carbide with steel head, damped', carbide: true },
  G: { text: 'carbide with steel head, damped, coolant through', carbide: true },
  H: { text: 'heavy metal', carbide: false },
  J: { text: 'heavy metal, coolant through', carbide: false },
};

/** Where the tables above come from. */
export const DESIGNATION_SOURCES: readonly { readonly what: string; readonly source: string }[] = [
  { what: 'metric inserts', source: 'ISO 1832, from memory' },
  { what: 'inch inserts', source: 'ANSI B212.4, from memory' },
  { what: 'turning holders', source: 'ISO 5608, from memory' },
  { what: 'boring bars', source: 'ISO 6261, from memory' },
  { what: 'inch holders', source: 'ANSI B212.5, from memory' },
];
