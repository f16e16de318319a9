import type {
  Character,
  Designation,
  Figure,
  Hardness,
  HeatState,
  Material,
  MaterialGroup,
  MillFeedClass,
  RangeFigure,
  SpeedOperation,
  TabledSubstrate,
} from './material.ts';
import type { Source, SourceKey } from './sources.ts';
import { sourceOf } from './sources.ts';

type RangeCell = readonly [low: number, high: number, source: SourceKey];
type FigureCell = readonly [value: number, source: SourceKey];
type Names = Readonly<Record<string, readonly string[]>>;

/** One material as the data files write it: every figure ends with the key of its source. */
export interface MaterialRow {
  readonly id: string;
  readonly group: MaterialGroup;
  readonly name: string;
  readonly condition: string;
  readonly called: Names;
  readonly near?: Names;
  readonly state?: HeatState;
  readonly tempers?: readonly string[];
  readonly hardness?: readonly [scale: Hardness['scale'], low: number, high: number, source: SourceKey];
  readonly density_kg_m3: FigureCell;
  readonly kc11_n_mm2: FigureCell;
  readonly mc: FigureCell;
  readonly speed_m_min: Partial<Record<SpeedOperation, Partial<Record<TabledSubstrate, RangeCell>>>>;
  readonly mill_feed: MillFeedClass;
  readonly drill_feed: MillFeedClass;
  readonly h_min_over_edge_radius: RangeCell;
  readonly character: readonly Character[];
  readonly behaviour: string;
  readonly coolant: readonly [text: string, source: SourceKey];
}

export interface LoadedRow {
  readonly material: Material;
  /** Names of the figures that were left out because they name no known source or are no numbers. */
  readonly left_out: readonly string[];
}

/**
 * Turns a row of a data file into a material.
 *
 * A figure without a known source, or that is no number in order (low over high, zero, NaN), is left out and named in `left_out`.
 * Units are those in the names of the keys.
 */
export function loadRow(row: MaterialRow): LoadedRow {
  const left_out: string[] = [];
  const sourced = <T>(label: string, key: string | undefined, make: (source: Source) => T | undefined) => {
    const source = sourceOf(key);
    const made = source === undefined ? undefined : make(source);
    if (made === undefined) left_out.push(`${row.id}: ${label}`);
    return made;
  };
  const figure = (label: string, cell: FigureCell): Figure | undefined =>
    sourced(label, cell[1], source => (cell[0] > 0 ? { value: cell[0], source } : undefined));
  const range = (label: string, cell: RangeCell): RangeFigure | undefined =>
    sourced(label, cell[2], source =>
      cell[0] > 0 && cell[1] >= cell[0] ? { low: cell[0], high: cell[1], source } : undefined,
    );

  const speed: Partial<Record<SpeedOperation, Partial<Record<TabledSubstrate, RangeFigure>>>> = {};
  for (const [operation, cells] of Object.entries(row.speed_m_min) as [
    SpeedOperation,
    Record<string, RangeCell>,
  ][]) {
    const loaded: Partial<Record<TabledSubstrate, RangeFigure>> = {};
    for (const [substrate, cell] of Object.entries(cells) as [TabledSubstrate, RangeCell][]) {
      const kept = range(`speed ${operation} ${substrate}`, cell);
      if (kept !== undefined) loaded[substrate] = kept;
    }
    speed[operation] = loaded;
  }
  const hardness = row.hardness;
  const kc = figure('kc1.1', row.kc11_n_mm2);
  const material: Material = {
    id: row.id,
    group: row.group,
    name: row.name,
    condition: row.condition,
    designations: [...names(row.called, false), ...names(row.near ?? {}, true)],
    state: row.state,
    tempers: row.tempers ?? [],
    hardness:
      hardness &&
      sourced('hardness', hardness[3], source => ({
        scale: hardness[0],
        low: hardness[1],
        high: hardness[2],
        source,
      })),
    density_kg_m3: figure('density', row.density_kg_m3),
    kc11_n_mm2: kc,
    mc: figure('mc', row.mc),
    kc_reference_rake_deg: referenceRake(row.group, row.kc11_n_mm2[1]),
    kc_scatter: kc?.source.how === 'estimate' ? 0.25 : 0.2,
    speed_m_min: speed,
    mill_feed: row.mill_feed,
    drill_feed: row.drill_feed,
    h_min_over_edge_radius: range('h_min over edge radius', row.h_min_over_edge_radius),
    character: row.character,
    behaviour: row.behaviour,
    coolant: sourced('coolant', row.coolant[1], source => ({ text: row.coolant[0], source })),
  };
  return { material, left_out };
}

function names(bySystem: Names, near: boolean): Designation[] {
  return Object.entries(bySystem).flatMap(([system, texts]) => texts.map(text => ({ system, text, near })));
}

/** The German tables hold for these rakes; an estimate between neighbours of a group keeps the neighbours' rake. */
function referenceRake(group: MaterialGroup, source: string): number | undefined {
  if (source !== 'kienzle-tables' && source !== 'kienzle-quoted' && source !== 'estimate') return undefined;
  const byGroup: Partial<Record<MaterialGroup, number>> = { P: 6, M: 6, H: 6, K: 2, N: 0 };
  return byGroup[group];
}
