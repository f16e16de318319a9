import { KIND } from '../rs274/steps.ts';
import type { Piece } from './blocks.ts';
import { turnsBack } from './scan-arcs.ts';
import { firstOf, JoinedEnds, lastOf, lookAcross, REACH, type StepRef } from './scan-ends.ts';
import { feedsUpAt } from './scan-feeds-up.ts';
import { JoinedHoles } from './scan-holes.ts';
import {
  addPlace,
  addSideways,
  type FeedUp,
  MOST_PLACES,
  type Scan,
  type Sideways,
  type TurnedArc,
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
  private readonly vias: ViaPoint[] = [];
  private readonly feedsUp: FeedUp[] = [];
  private readonly turnedArcs: TurnedArc[] = [];
  private readonly sideways: Sideways[] = [];
  private readonly axes: Axis[] = [];
  /** The last step so far may be a mark. */
  private marked = false;

  constructor(
    private readonly pieces: readonly Piece<Scan>[],
    private readonly lathe: boolean,
  ) {}

  add(index: number): void {
    const { value: scan, by } = this.pieces[index];
    if (scan.marked || this.marked) this.addAcross(index);
    addPlaced(this.vias, scan.vias, by);
    addPlaced(this.feedsUp, scan.feedsUp, by);
    addPlaced(this.turnedArcs, scan.turnedArcs, by);
    for (const one of scan.sideways)
      addSideways(this.sideways, by === 0 ? one : { ...one, line: one.line + by });
    for (let axis = 0; axis < scan.axes.length; axis++)
      this.axes[axis] = joinAxes(this.axes[axis], scan.axes[axis], by);
    if (scan.ends.count > 0) this.marked = scan.marked;
  }

  done(): Scan {
    const { pieces, vias, feedsUp, turnedArcs, sideways, axes } = this;
    const count = pieces.reduce((sum, { value }) => sum + value.ends.count, 0);
    const ends = new JoinedEnds(count, firstSteps(pieces), lastSteps(pieces, pieces.length));
    const marked = pieces.some(({ value }) => value.marked);
    const holes = new JoinedHoles(pieces.map(({ value, by }) => ({ value: value.holes, by })));
    return { holes, vias, feedsUp, turnedArcs, sideways, axes, marked, ends };
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
