import { layoutAux, layoutWide, layoutY } from './kernel/pack.ts';
import { kernelOf } from './kernel.ts';
import { ARC_WIDTH, type Column, ROTARY_WIDTH, RUN_WIDTH, type StepTable } from './steps.ts';
import { type StepViews, ViewedSteps } from './viewed-steps.ts';

/** The steps of a recorder, put away in a buffer of their own. `runs` are its runs, to be held on to. */
export function packSteps(steps: StepTable, runs = runsOf(steps)): PackedSteps {
  const { count, arcCount } = steps;
  const kernel = kernelOf(steps);
  const layout = kernel.layoutFor(count, arcCount, steps.runCount);
  const buffer = new ArrayBuffer(bytesOf(layout, count, arcCount));
  kernel.layOut(layout, count, arcCount, buffer, 0);
  return new PackedSteps(buffer, layout, runs, steps);
}

/** The runs of a table; stretch after stretch in one state hold the same, so the last are handed in. */
export function runsOf({ runs, runCount }: StepTable, last: Float64Array = NOTHING): Float64Array {
  const length = runCount * RUN_WIDTH;
  let same = last.length === length;
  for (let i = 0; same && i < length; i += 1)
    same = last[i] === runs[i] || (Number.isNaN(last[i]) && Number.isNaN(runs[i]));
  return same ? last : runs.slice(0, length);
}

/** Steps put away: columns in one buffer. The views of the columns are made when one is first asked for. */
export class PackedSteps extends ViewedSteps implements StepTable {
  readonly count: number;
  readonly runCount: number;
  readonly arcCount: number;
  readonly rotaryCount: number;
  readonly rotary: Column | null;
  readonly rotaries: Float64Array;
  readonly seconds: ReadonlyMap<number, number>;
  readonly files: ReadonlyMap<number, string>;
  private views: StepViews | null = null;

  constructor(
    private readonly buffer: ArrayBuffer,
    private readonly layout: number,
    readonly runs: Float64Array,
    steps: StepTable,
  ) {
    super();
    const { count, rotary, rotaryCount } = steps;
    this.count = count;
    this.runCount = steps.runCount;
    this.arcCount = steps.arcCount;
    this.rotaryCount = rotaryCount;
    this.rotary = rotary === null ? null : rotary.slice(0, count);
    this.rotaries = rotaryCount === 0 ? NOTHING : steps.rotaries.slice(0, rotaryCount * ROTARY_WIDTH);
    // An empty map may still be written to: it is not taken over.
    this.seconds = steps.seconds.size === 0 ? NO_SECONDS : steps.seconds;
    this.files = steps.files.size === 0 ? NO_FILES : steps.files;
  }

  protected look(): StepViews {
    this.views ??= viewsOf(this.buffer, this.layout, this.count, this.arcCount);
    return this.views;
  }
}

const NOTHING = new Float64Array(0);
const NO_AUX = new Int16Array(0);
const NO_SECONDS: ReadonlyMap<number, number> = new Map();
const NO_FILES: ReadonlyMap<number, string> = new Map();
let unknown = new Float64Array(512).fill(Number.NaN);

/** A column of what is not known; all tables share it. */
function unknownColumn(count: number): Float64Array {
  if (unknown.length < count) unknown = new Float64Array(2 * count).fill(Number.NaN);
  return unknown.subarray(0, count);
}

/** Each column begins at a multiple of its own size: the widest come first, and there are eights of steps. */
function bytesOf(layout: number, count: number, arcCount: number): number {
  const room = (count + 7) & ~7;
  const size = (layout & layoutWide) !== 0 ? 4 : 2;
  const narrow = size + ((layout & layoutAux) !== 0 ? size : 0) + (size === 4 ? 4 : 1) + 2;
  return room * (narrow + ((layout & layoutY) !== 0 ? 24 : 16)) + arcCount * ARC_WIDTH * 8;
}

function viewsOf(buffer: ArrayBuffer, layout: number, count: number, arcCount: number): StepViews {
  const room = (count + 7) & ~7;
  const wide = (layout & layoutWide) !== 0;
  const with_y = (layout & layoutY) !== 0;
  const coordinates = (column: number) => new Float64Array(buffer, column * 8 * room, count);
  const arc_values = arcCount * ARC_WIDTH;
  let next = (with_y ? 24 : 16) * room;
  const arcs = new Float64Array(buffer, next, arc_values);
  next += 8 * arc_values;
  const take = (size: number): Column => {
    const from = next;
    next += size * room;
    if (size === 4) return new Int32Array(buffer, from, count);
    return size === 2 ? new Int16Array(buffer, from, count) : new Uint8Array(buffer, from, count);
  };
  const size = wide ? 4 : 2;
  const line = take(size);
  const aux = (layout & layoutAux) !== 0 ? take(size) : NO_AUX;
  const run = take(wide ? 4 : 1);
  const kind = new Uint8Array(buffer, next, count);
  const flags = new Uint8Array(buffer, next + room, count);
  const y = with_y ? coordinates(2) : unknownColumn(count);
  return { x: coordinates(0), y, z: coordinates(1), arcs, line, run, aux, kind, flags };
}
