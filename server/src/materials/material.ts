import type { Source } from './sources.ts';

/** Workpiece groups of ISO 513: steel, stainless, cast iron, non-ferrous, heat-resisting, hardened. */
export type MaterialGroup = 'P' | 'M' | 'K' | 'N' | 'S' | 'H';

/** Class of the feed tables. */
export type MillFeedClass =
  | 'free'
  | 'steel'
  | 'tough'
  | 'stainless'
  | 'iron'
  | 'alu'
  | 'heat'
  | 'ti'
  | 'hard'
  | 'plastic';

/** How a material behaves under the tool. */
export type Character =
  | 'gummy'
  | 'work-hardening'
  | 'abrasive'
  | 'cast-skin'
  | 'titanium'
  | 'fire'
  | 'heat-at-edge'
  | 'moves-when-skinned'
  | 'short-chips';

/** Operations that the speed tables tell apart. */
export type SpeedOperation = 'turning' | 'milling' | 'drilling' | 'tapping';

/** Tool materials that the handbook tables cover. */
export type TabledSubstrate = 'hss' | 'carbide';

export interface Figure {
  readonly value: number;
  readonly source: Source;
}

export interface RangeFigure {
  readonly low: number;
  readonly high: number;
  readonly source: Source;
}

/** Hardness on one scale; low equals high when a single figure was stated. */
export interface Hardness {
  readonly scale: 'HB' | 'HRC' | 'HV';
  readonly low: number;
  readonly high: number;
}

/** One name of a material in one system of names. */
export interface Designation {
  readonly system: string;
  readonly text: string;
  /** A neighbour rather than the same grade. */
  readonly near: boolean;
}

/** Where several rows share a designation, the state of heat treatment tells them apart. */
export type HeatState = 'soft' | 'tempered' | 'hardened';

export type SpeedTable = Readonly<
  Partial<Record<SpeedOperation, Readonly<Partial<Record<TabledSubstrate, RangeFigure>>>>>
>;

/** Ranges stated by the tool's maker or proven in this shop, with where that stands. */
export interface StatedWindow {
  readonly chip_load_mm?: readonly [low: number, high: number];
  readonly feed_per_rev_mm?: readonly [low: number, high: number];
  readonly surface_speed_m_min?: readonly [low: number, high: number];
  readonly source: string;
}

/** A workpiece material. Figures that nobody has stated are absent. */
export interface Material {
  readonly id: string;
  readonly group?: MaterialGroup;
  readonly name: string;
  readonly condition?: string;
  readonly designations: readonly Designation[];
  readonly state?: HeatState;
  /** Tempers that the figures are for. */
  readonly tempers: readonly string[];
  readonly hardness?: Hardness & { readonly source: Source };
  readonly density_kg_m3?: Figure;
  /** Specific cutting force at a chip of 1 mm by 1 mm, N/mm². */
  readonly kc11_n_mm2?: Figure;
  /** Slope of the specific cutting force over chip thickness. */
  readonly mc?: Figure;
  /** Rake that kc1.1 is tabled for, degrees: +6 steel, +2 cast iron, 0 light metal in the German tables; undefined when not known. */
  readonly kc_reference_rake_deg?: number;
  /** Spread between sources as a share of the value. */
  readonly kc_scatter: number;
  readonly speed_m_min: SpeedTable;
  readonly mill_feed?: MillFeedClass;
  readonly drill_feed?: MillFeedClass;
  /** The shop's own windows for it, from the crib; they stand in place of the handbook's. */
  readonly own?: StatedWindow;
  /** Least chip thickness over the edge's rounding. */
  readonly h_min_over_edge_radius?: RangeFigure;
  readonly character: readonly Character[];
  readonly behaviour?: string;
  readonly coolant?: { readonly text: string; readonly source: Source };
}
