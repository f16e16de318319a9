import type { Ends } from './scan-ends.ts';
import type { Axis } from './scan-outliers.ts';

/** A hole along Z: made by a cycle, or by a straight feed down. Lengths mm. */
export interface Hole {
  line: number;
  /** The run it was made in. */
  run: Float64Array;
  x: number;
  y: number;
  /** Where feed begins and where it ends. */
  top: number;
  bottom: number;
  /** Greatest depth fed in one go. */
  stroke_mm: number;
  strokes: number;
  /** Longest dwell in it, s. */
  dwell_s: number;
  /** Made by a cycle. */
  cycle: boolean;
}

/** A rapid to an intermediate point on the way to the reference position. */
export interface ViaPoint {
  line: number;
  run: Float64Array;
  from_z: number;
  z: number;
}

/** A straight feed up right after a rapid down, followed by a cut at that height. */
export interface FeedUp {
  line: number;
  from_z: number;
  z: number;
}

/** An arc that would run on smoothly at both ends if it turned the other way. */
export interface TurnedArc {
  line: number;
}

/** The first feed move of a tool that goes sideways. */
export interface Sideways {
  line: number;
  tool: number;
  z: number;
}

/** What one look at all steps gives to the rules. */
export interface Marks {
  /** All of them: where one is enough, `findHole` costs less. */
  readonly holes: readonly Hole[];
  /** The first hole that is wanted; its line is not to be asked for. */
  findHole(wanted: (hole: Omit<Hole, 'line'>) => boolean): Hole | undefined;
  readonly vias: readonly ViaPoint[];
  readonly feedsUp: readonly FeedUp[];
  readonly turnedArcs: readonly TurnedArc[];
  readonly sideways: readonly Sideways[];
  /** X and Y; none on lathes. */
  readonly axes: readonly Axis[];
}

/** Holes in order, each with the line of the stretch that it was found in (many pieces share them), and their lines, counted from the piece. */
export interface HoleList {
  readonly holes: readonly Hole[];
  readonly lines: readonly number[];
}

/** The holes of a piece of a program, with what is needed to join it with its neighbours. */
export interface Holes {
  readonly count: number;
  readonly first: Hole | undefined;
  /** The hole that a later stroke or dwell belongs to, by index; NO_HOLE after a tool change, UNTOUCHED before anything. */
  readonly open: number;
  readonly open_hole: Hole | undefined;
  /** Longest dwell before the first hole: it belongs to a hole before the piece. */
  readonly lead_dwell_s: number;
  /** The first hole is a stroke on a lathe's axis: it goes on with a hole before the piece where it stands in the same place. */
  readonly goes_on: boolean;
  list(): HoleList;
}

/** The marks of a piece of a program, with what is needed to join it with its neighbours: where it is cut must not matter. */
export interface Scan extends Omit<Marks, 'holes' | 'findHole'> {
  readonly holes: Holes;
  /** One of the steps at an end may be a mark. */
  readonly marked: boolean;
  readonly ends: Ends;
}

export const NO_HOLE = -1;
export const UNTOUCHED = -2;

/** Holes and places kept of a program: the first so many, in whatever pieces it is looked at. */
export const MOST_HOLES = 20_000;
export const MOST_PLACES = 20_000;

/** Points nearer than this are one. */
export const SAME_MM = 1e-6;

/** Whether a move between two points stays in place; what is not known stays where it is. */
export function stays(x: number, x0: number, y: number, y0: number): boolean {
  return near(x, x0) && near(y, y0);
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < SAME_MM || (Number.isNaN(a) && Number.isNaN(b));
}

/** Adds the first feed move of a tool that goes sideways, where it has none yet. */
export function addSideways(all: Sideways[], one: Sideways): void {
  if (all.some(other => Object.is(other.tool, one.tool))) return;
  addPlace(all, one);
}

export function addPlace<T>(all: T[], one: T): void {
  if (all.length < MOST_PLACES) all.push(one);
}
