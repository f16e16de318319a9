/** The lathe's stock with its moves: cut one after the other, and after an edit from the last kept profile on. */
import { LatheStock } from './lathe.ts';
import type { LatheFigures } from './lathe-figures.ts';
import { beginsUse, type LatheMove, latheMoveAt } from './lathe-moves.ts';
import type { BarProfile, BarStock } from './lathe-profile.ts';
import { emptyMoves, type MoveColumns, spliceMoves } from './moves.ts';
import type { StockRun } from './stock-run.ts';
import type { TurningTool } from './turning-tool.ts';

/** What cuts: a drill on the axis, or an outline; `inside` where the way in decides whether the tool works in the bore. */
export type LatheTool =
  | { readonly diameter_mm: number; readonly point_angle_deg: number }
  | { readonly outline: TurningTool; readonly inside?: TurningTool };

/** The columns of a row of figures, in order. */
export const latheFigureNames = [
  'removed_mm3',
  'radial_depth_mm',
  'depth_mm',
  'thread_pass_mm',
  'from_z_mm',
  'to_z_mm',
  'outer_radius_mm',
  'inner_radius_mm',
  'cuts',
  'air_share',
] as const satisfies readonly (keyof LatheFigures)[];

const width = latheFigureNames.length;
/** Deepest first pass that still tells a tool in the bore, mm. */
const first_pass_mm = 1.5;
const mostSnapshots = 8;

interface Snapshot {
  readonly done: number;
  readonly profile: BarProfile;
  readonly inBore: boolean | undefined;
}

export class LatheRun implements StockRun {
  readonly moves: MoveColumns = emptyMoves();
  readonly stock: LatheStock;
  readonly width = width;
  done = 0;
  cut_again = 0;
  private data = new Float64Array(64 * width);
  private started = false;
  /** The move in work leaves the bar as it is and has no figures. */
  private idle = false;
  /** Whether the tool in use works in the bore; undefined while that is not settled. */
  private inBore: boolean | undefined;
  private snapshots: Snapshot[] = [];
  private every = 64;

  constructor(
    readonly bar: BarStock,
    private readonly tools: readonly LatheTool[],
  ) {
    this.stock = new LatheStock(bar);
    this.snapshots.push({ done: 0, profile: this.stock.profile(), inBore: undefined });
  }

  append(moves: MoveColumns): void {
    spliceMoves(this.moves, this.moves.count, 0, moves);
  }

  step(): boolean {
    const { done: move, moves } = this;
    if (move >= moves.count) return false;
    if (!this.started) {
      if (move > 0 && move % this.every === 0) this.keep();
      this.started = true;
      this.start(move);
    }
    if (!this.idle && !this.stock.goOn()) return true;
    this.write(move);
    this.started = false;
    this.done++;
    return true;
  }

  /** Cuts all moves that wait. */
  finish(): void {
    while (this.step());
  }

  beginEdit(at: number, removed: number, inserted: MoveColumns): void {
    spliceMoves(this.moves, at, removed, inserted);
    if (at > this.done || (at === this.done && !this.started)) return;
    this.snapshots = this.snapshots.filter(({ done }) => done <= at);
    const to = this.snapshots[this.snapshots.length - 1];
    this.stock.restore(to.profile);
    this.inBore = to.inBore;
    this.done = to.done;
    this.started = false;
    this.cut_again = 1;
  }

  rows(from: number, to: number): Float64Array {
    return this.data.slice(from * width, to * width);
  }

  /** What a finished move met; undefined where it leaves the bar as it is. */
  at(move: number): LatheFigures | undefined {
    return latheFiguresAt(this.data, move);
  }

  private start(move: number): void {
    const tool = this.tools[this.moves.tool[move]];
    const way = latheMoveAt(this.moves, move);
    this.idle = false;
    if (beginsUse(this.moves, move)) this.inBore = undefined;
    if ('diameter_mm' in tool) {
      this.stock.drill(way.from[0], way.to[0], tool.diameter_mm, tool.point_angle_deg);
      return;
    }
    const outline = tool.inside && this.worksInBore(way) ? tool.inside : tool.outline;
    this.idle = leavesThread(way, outline);
    if (!this.idle) this.stock.begin(way, outline);
  }

  /**
   * Whether a grooving or threading tool works in the bore: a sheet does not say, the way in does. Settled at the first
   * move of each use that goes behind the face: in the bore when it starts no further out than the bore's wall.
   */
  private worksInBore({ from, to }: LatheMove): boolean {
    if (this.inBore !== undefined) return this.inBore;
    if (!(to[0] < this.bar.high_z_mm)) return false;
    const { inner, outer } = this.stock.radiiAt(to[0]);
    if (!(outer > inner)) return false;
    this.inBore = inner > 0 && from[1] <= inner + first_pass_mm && from[1] < outer;
    return this.inBore;
  }

  private write(move: number): void {
    const at = move * width;
    if (at + width > this.data.length) {
      const grown = new Float64Array(2 * this.data.length);
      grown.set(this.data);
      this.data = grown;
    }
    latheFigureNames.forEach((name, column) => {
      this.data[at + column] = this.idle ? Number.NaN : Number(this.stock.figures[name]);
    });
  }

  private keep(): void {
    if (this.snapshots[this.snapshots.length - 1].done >= this.done) return;
    this.snapshots.push({ done: this.done, profile: this.stock.profile(), inBore: this.inBore });
    if (this.snapshots.length <= mostSnapshots) return;
    this.snapshots = this.snapshots.filter((_, at) => at % 2 === 0);
    this.every *= 2;
  }
}

/** Figures of a move out of rows that stand one after the other; undefined where it leaves the bar as it is. */
export function latheFiguresAt(rows: Float64Array, move: number): LatheFigures | undefined {
  const at = move * width;
  if (Number.isNaN(rows[at])) return undefined;
  const [removed_mm3, radial_depth_mm, depth_mm, thread_pass_mm, ...rest] = rows.subarray(at, at + width);
  const [from_z_mm, to_z_mm, outer_radius_mm, inner_radius_mm, cuts, air_share] = rest;
  return {
    ...{ removed_mm3, radial_depth_mm, depth_mm, thread_pass_mm },
    ...{ from_z_mm, to_z_mm, outer_radius_mm, inner_radius_mm },
    cuts: cuts === 1,
    air_share,
  };
}

/** Threads are not held as shapes: the point leaves the groove that it has just cut, straight out. */
function leavesThread({ kind, from, to }: LatheMove, tool: TurningTool): boolean {
  return tool.kind === 'thread-turn' && kind === 'rapid' && (to[1] - from[1]) * tool.inward > 0;
}
