/** What each move met, in columns. */
import type { Cutter } from './cutter.ts';
import { levelOf } from './kernel/station.ts';
import { type Rows, row, rowWidth } from './rows.ts';

/**
 * The columns. Lengths mm, volume mm3, angles degrees; angles are measured clockwise from the left of the feed, as seen from
 * above (left wall 0, ahead 90, right wall 180). NaN: no such thing on this move.
 */
export const figureNames = [
  /** Metal taken out by the move. */
  'removed_mm3',
  /** Greatest depth of contact over the tip. */
  'axial_depth_mm',
  /** Greatest width of contact across the feed. */
  'radial_width_mm',
  /** Sum of the arcs in metal where it is greatest; its entry and exit there. */
  'engagement_deg',
  'entry_deg',
  'exit_deg',
  /** Least and mean of the arc over the part of the move that cuts. */
  'least_engagement_deg',
  'mean_engagement_deg',
  /** Entry, exit and depth of contact where it is least. */
  'least_entry_deg',
  'least_exit_deg',
  'least_depth_mm',
  /** Where the arc is greatest. */
  'at_x',
  'at_y',
  'at_z',
  /** Share of the arc that climbs with a clockwise (M3) tool, 0..1; take 1 minus it for M4. */
  'climb_share',
  /** Share of the length without contact, 0..1. */
  'air_share',
  /** First contact on the move. */
  'contact_x',
  'contact_y',
  'contact_z',
  /** Moving down: greatest share of the underside in metal, and whether the axis was (0 or 1). */
  'bottom_share',
  'centre_in_metal',
  /** How deep shank or holder stood in metal. */
  'body_contact_mm',
] as const;

export type FigureName = (typeof figureNames)[number];
export type MoveFigures = Record<FigureName, number>;

const width = figureNames.length;
const column = Object.fromEntries(figureNames.map((name, at) => [name, at])) as Record<FigureName, number>;

/** The figures of all moves, kept row by row in one buffer. */
export class FigureTable {
  count = 0;
  private data = new Float32Array(16 * width);
  /** Volumes in full: they are summed. */
  private removed = new Float64Array(16);

  resize(count: number): void {
    if (count > this.removed.length) {
      const room = Math.max(count, 2 * this.removed.length);
      const data = new Float32Array(room * width);
      data.set(this.data);
      this.data = data;
      const removed = new Float64Array(room);
      removed.set(this.removed);
      this.removed = removed;
    }
    this.count = count;
  }

  splice(at: number, removed: number, inserted: number): void {
    const count = this.count;
    this.resize(Math.max(count, count - removed + inserted));
    this.data.copyWithin((at + inserted) * width, (at + removed) * width, count * width);
    this.data.fill(Number.NaN, at * width, (at + inserted) * width);
    this.removed.copyWithin(at + inserted, at + removed, count);
    this.count = count - removed + inserted;
  }

  write(move: number, values: Float64Array): void {
    const { data } = this;
    const at = move * width;
    for (let k = 0; k < width; k++) data[at + k] = values[k];
    this.removed[move] = values[0];
  }

  get(move: number, name: FigureName): number {
    return name === 'removed_mm3' ? this.removed[move] : this.data[move * width + column[name]];
  }

  /** All figures of one move as an object. */
  at(move: number): MoveFigures {
    const figures = {} as MoveFigures;
    for (const name of figureNames) figures[name] = this.get(move, name);
    return figures;
  }

  /** Rows `from <= move < to`, one after the other; the buffer may be transferred. */
  rows(from: number, to: number): Float64Array {
    const rows = Float64Array.from(this.data.subarray(from * width, to * width));
    for (let move = from; move < to; move++) rows[(move - from) * width] = this.removed[move];
    return rows;
  }

  /** One column as an array of its own, for `from <= move < to`; its buffer may be transferred. */
  column(name: FigureName, from = 0, to = this.count): Float32Array | Float64Array {
    const out = name === 'removed_mm3' ? new Float64Array(to - from) : new Float32Array(to - from);
    for (let move = from; move < to; move++) out[move - from] = this.get(move, name);
    return out;
  }
}

/** Figures of a move out of rows that stand one after the other. */
export function figuresAt(rows: Float64Array, move: number): MoveFigures {
  const figures = {} as MoveFigures;
  for (let k = 0; k < width; k++) figures[figureNames[k]] = rows[move * width + k];
  return figures;
}

/** The stations of the move in work: places, and the share of the length each stands for. */
export interface StationList {
  count: number;
  /** x, y, z, share of the length. */
  places: Float64Array;
}

const degrees = 180 / Math.PI;
const perStation = 8;
let sums = new Float64Array(64 * perStation);
const answer = new Float64Array(width);

/** Starts the figures of a move with `count` stations. */
export function beginFigures(count: number): void {
  if (sums.length < count * perStation) sums = new Float64Array(2 * count * perStation);
  for (let k = 0; k < count; k++) {
    const at = k * perStation;
    sums[at] = 0;
    sums[at + 1] = 4;
    sums[at + 2] = -4;
    sums[at + 3] = 0;
    sums[at + 4] = 0;
    sums[at + 5] = 0;
    sums[at + 6] = 0;
    sums[at + 7] = 0;
  }
  for (let k = 0; k < width; k++) answer[k] = 0;
}

/** Notes how high the tool touches at each station; for round tools all tiles come here before any is added. */
export function noteContacts(rows: Rows, from: number, to: number): void {
  for (let k = from; k < to; k++) {
    const at = rows.data[k * rowWidth + row.station] * perStation + 7;
    const contact = rows.data[k * rowWidth + row.contact];
    if (contact > sums[at]) sums[at] = contact;
  }
}

/** Adds what one tile saw of the move: rows `from <= k < to` and the volume it gave. Tiles must come in rising order. */
export function addToFigures(rows: Rows, from: number, to: number, removed_mm3: number, tool: Cutter): void {
  answer[column.removed_mm3] += removed_mm3;
  const data = rows.data;
  const round = tool.shape !== 'flat';
  for (let k = from; k < to; k++) {
    const r = k * rowWidth;
    const at = data[r + row.station] * perStation;
    const depth = data[r + row.depth];
    sums[at + 6] += data[r + row.bottom];
    if (depth > sums[at + 5]) sums[at + 5] = depth;
    if (data[r + row.centre] > 0) answer[column.centre_in_metal] = 1;
    if (data[r + row.body] > answer[column.body_contact_mm])
      answer[column.body_contact_mm] = data[r + row.body];
    if (data[r + row.arc] <= 0) continue;
    if (round && data[r + row.level] !== levelOf(tool.edge_height_mm, sums[at + 7])) continue;
    sums[at] += data[r + row.arc];
    sums[at + 1] = Math.min(sums[at + 1], data[r + row.least]);
    sums[at + 2] = Math.max(sums[at + 2], data[r + row.most]);
    sums[at + 3] += data[r + row.width];
    sums[at + 4] += data[r + row.climb];
  }
}

/** Ends the move: the answer is one row for `FigureTable.write`. */
export function endFigures(list: StationList, diameter_mm: number): Float64Array {
  const places = list.places;
  let air = 0;
  let cutting = 0;
  let arcs = 0;
  let climbs = 0;
  let least = Number.POSITIVE_INFINITY;
  let greatest = -1;
  let leastAt = -1;
  let first = -1;
  let share = 0;
  for (let k = 0; k < list.count; k++) {
    const at = k * perStation;
    const part = places[4 * k + 3];
    const arc = sums[at];
    share = Math.max(share, sums[at + 6]);
    answer[column.axial_depth_mm] = Math.max(answer[column.axial_depth_mm], sums[at + 5]);
    if (arc <= 0 && sums[at + 6] <= 0) {
      air += part;
      continue;
    }
    if (first < 0) first = k;
    if (arc <= 0) continue;
    answer[column.radial_width_mm] = Math.max(
      answer[column.radial_width_mm],
      Math.min(diameter_mm, sums[at + 3]),
    );
    if (greatest < 0 || arc > sums[greatest * perStation] + 1e-6) greatest = k;
    if (part > 0) {
      if (arc < least) {
        least = arc;
        leastAt = k;
      }
      cutting += part;
      arcs += part * arc;
      climbs += (part * sums[at + 4]) / arc;
    }
  }
  answer[column.air_share] = list.count === 0 || air > 1 - 1e-9 ? 1 : air;
  answer[column.bottom_share] = Math.min(1, share);
  place(column.contact_x, places, first);
  place(column.at_x, places, greatest);
  const none = greatest < 0;
  const g = greatest * perStation;
  answer[column.engagement_deg] = none ? 0 : sums[g] * degrees;
  answer[column.entry_deg] = none ? Number.NaN : 90 - sums[g + 2] * degrees;
  answer[column.exit_deg] = none ? Number.NaN : 90 - sums[g + 1] * degrees;
  answer[column.least_engagement_deg] = cutting > 0 ? least * degrees : none ? Number.NaN : sums[g] * degrees;
  answer[column.mean_engagement_deg] =
    cutting > 0 ? (arcs / cutting) * degrees : none ? Number.NaN : sums[g] * degrees;
  const l = (leastAt < 0 ? greatest : leastAt) * perStation;
  answer[column.least_entry_deg] = none ? Number.NaN : 90 - sums[l + 2] * degrees;
  answer[column.least_exit_deg] = none ? Number.NaN : 90 - sums[l + 1] * degrees;
  answer[column.least_depth_mm] = none ? Number.NaN : sums[l + 5];
  answer[column.climb_share] = cutting > 0 ? climbs / cutting : Number.NaN;
  return answer;
}

function place(at: number, places: Float64Array, station: number): void {
  for (let k = 0; k < 3; k++) answer[at + k] = station < 0 ? Number.NaN : places[4 * station + k];
}
