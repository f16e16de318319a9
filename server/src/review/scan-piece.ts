import { KIND } from '../rs274/steps.ts';
import type { Piece } from './blocks.ts';
import { turnsBack } from './scan-arcs.ts';
import { firstOf, JoinedEnds, lastOf, lookAcross, REACH, type StepRef } from './scan-ends.ts';
import { feedsUpAt } from './scan-feeds-up.ts';
import {
  addPlace,
  addSideways,
  type FeedUp,
  type Hole,
  MOST_HOLES,
  MOST_PLACES,
  NO_HOLE,
  type Scan,
  type Sideways,
  stays,
  type TurnedArc,
  UNTOUCHED,
  type ViaPoint,
} from './scan-marks.ts';
import { type Axis, joinAxes } from './scan-outliers.ts';

/** Joins neighbouring pieces of a program: what comes out is the same wherever it is cut. */
export function joinScans(pieces: readonly Piece<Scan>[], lathe: boolean): Scan {
  if (pieces.length === 1 && pieces[0].by === 0) return pieces[0].value;
  const joining = new Joining(pieces, lathe);
  for (let index = 0; index < pieces.length; index++) joining.add(index);
  return joining.done();
}

class Joining {
  private readonly holes: Hole[] = [];
  private readonly lines: number[] = [];
  private readonly vias: ViaPoint[] = [];
  private readonly feedsUp: FeedUp[] = [];
  private readonly turnedArcs: TurnedArc[] = [];
  private readonly sideways: Sideways[] = [];
  private readonly axes: Axis[] = [];
  private open = UNTOUCHED;
  private lead_dwell_s = 0;
  private goes_on = false;
  /** The last step so far may be a mark. */
  private marked = false;

  constructor(
    private readonly pieces: readonly Piece<Scan>[],
    private readonly lathe: boolean,
  ) {}

  add(index: number): void {
    const { value: scan, by } = this.pieces[index];
    this.addHoles(scan, by);
    if (scan.marked || this.marked) this.addAcross(index);
    addPlaced(this.vias, scan.vias, by);
    addPlaced(this.feedsUp, scan.feedsUp, by);
    addPlaced(this.turnedArcs, scan.turnedArcs, by);
    for (const one of scan.sideways)
      addSideways(this.sideways, by === 0 ? one : { ...one, line: one.line + by });
    for (const [axis, part] of scan.axes.entries()) this.axes[axis] = joinAxes(this.axes[axis], part, by);
    if (scan.ends.count > 0) this.marked = scan.marked;
  }

  done(): Scan {
    const { pieces, holes, lines, vias, feedsUp, turnedArcs, sideways, axes, open, lead_dwell_s, goes_on } =
      this;
    const count = pieces.reduce((sum, { value }) => sum + value.ends.count, 0);
    const ends = new JoinedEnds(count, firstSteps(pieces), lastSteps(pieces, pieces.length));
    const marked = pieces.some(({ value }) => value.marked);
    return {
      holes,
      lines,
      vias,
      feedsUp,
      turnedArcs,
      sideways,
      axes,
      open,
      lead_dwell_s,
      goes_on,
      marked,
      ends,
    };
  }

  /** Adds the holes of a piece; its first stroke and the dwells before it may belong to the hole before it. */
  private addHoles(scan: Scan, by: number): void {
    const { holes, lines } = this;
    if (this.open === UNTOUCHED) {
      this.lead_dwell_s = Math.max(this.lead_dwell_s, scan.lead_dwell_s);
      this.goes_on = scan.goes_on;
    } else if (this.open !== NO_HOLE && scan.lead_dwell_s > holes[this.open].dwell_s) {
      holes[this.open] = { ...holes[this.open], dwell_s: scan.lead_dwell_s };
    }
    const before = this.open >= 0 ? holes[this.open] : undefined;
    const goes_on = scan.goes_on && before !== undefined && isSamePlace(scan.holes[0], before);
    if (goes_on) holes[this.open] = joined(before, scan.holes[0]);
    const from = goes_on ? 1 : 0;
    const base = holes.length - from;
    for (let i = from; i < scan.holes.length && holes.length < MOST_HOLES; i++) {
      holes.push(scan.holes[i]);
      lines.push(scan.lines[i] + by);
    }
    if (scan.open === NO_HOLE) this.open = NO_HOLE;
    else if (scan.open >= from) this.open = base + scan.open < holes.length ? base + scan.open : NO_HOLE;
  }

  /** Adds the marks that nobody could judge before: they stand where this piece meets those before it. */
  private addAcross(index: number): void {
    const { lathe, feedsUp, turnedArcs, pieces } = this;
    const { value, by } = pieces[index];
    lookAcross(lastSteps(pieces, index), value.ends.lead(by), (table, i, line) => {
      if (table.kind[i] === KIND.arc) {
        if (turnsBack(table, i)) addPlace(turnedArcs, { line });
      } else if (!lathe && feedsUpAt(table, i))
        addPlace(feedsUp, { line, from_z: table.z[i - 1], z: table.z[i] });
    });
  }
}

function isSamePlace(hole: Hole, other: Hole): boolean {
  return stays(hole.x, other.x, hole.y, other.y);
}

/** A hole with the strokes that come after it in the same place. */
function joined(hole: Hole, more: Hole): Hole {
  return {
    ...hole,
    bottom: Math.min(hole.bottom, more.bottom),
    stroke_mm: Math.max(hole.stroke_mm, more.stroke_mm),
    strokes: hole.strokes + more.strokes,
    dwell_s: Math.max(hole.dwell_s, more.dwell_s),
  };
}

function firstSteps(pieces: readonly Piece<Scan>[]): readonly StepRef[] {
  let steps: readonly StepRef[] = [];
  for (let i = 0; i < pieces.length && steps.length < REACH; i++)
    steps = firstOf(steps, pieces[i].value.ends.lead(pieces[i].by));
  return steps;
}

/** The last steps of the pieces before one. */
function lastSteps(pieces: readonly Piece<Scan>[], end: number): readonly StepRef[] {
  let steps: readonly StepRef[] = [];
  for (let i = end - 1; i >= 0 && steps.length < REACH; i--)
    steps = lastOf(pieces[i].value.ends.trail(pieces[i].by), steps);
  return steps;
}

function addPlaced<T extends { line: number }>(to: T[], from: readonly T[], by: number): void {
  for (const item of from) {
    if (to.length >= MOST_PLACES) return;
    to.push(by === 0 ? item : { ...item, line: item.line + by });
  }
}
