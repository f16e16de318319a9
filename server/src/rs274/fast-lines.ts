import { arcTolerance } from './arc-words.ts';
import * as at from './kernel/box.ts';
import { letterN, letterX, letterY, letterZ } from './kernel/letters.ts';
import { kernelFor, type RunAsked, type StepKernel } from './kernel.ts';
import type { Machine } from './machine.ts';
import { LARGEST_N } from './report-checks.ts';
import { S } from './state.ts';
import { ARC_WIDTH } from './steps.ts';

/**
 * The short way through one chunk of text: the blocks that long programs are made of, G0 to G3 with X Y Z I J K R F N and
 * plain numbers, absolute, no cycle, no compensation, no coordinate change. Everything else goes the long way
 * (block-reader.ts, executor.ts), with the same result; a test compares both.
 */
export class FastLines {
  private kernel: StepKernel | undefined;
  private x: Float64Array | undefined;
  private arcs: Float64Array | undefined;
  private readonly runOf: RunAsked = (motion, feed) => {
    const { v } = this.machine.state;
    v[S.motion] = motion;
    v[S.feed] = feed;
    return this.machine.runRow();
  };

  constructor(
    private readonly machine: Machine,
    private readonly bytes: Uint8Array,
  ) {}

  /**
   * Executes lines from `start` as long as they are plain; `limit` stands after a line end. Returns where it stopped: at
   * `limit` or at the start of a line for the long way. The machine's line counts on.
   */
  run(start: number, limit: number): number {
    let pos = start;
    const { table } = this.machine;
    for (;;) {
      const kernel = this.kernelNow();
      putIn(this.machine, kernel.box);
      pos = kernel.readLines(pos, limit);
      takeOut(this.machine, kernel.box);
      if (kernel.box[at.boxFull] === 0) return pos;
      table.ensure(1);
      table.ensureArcs(1);
    }
  }

  /** The kernel for the columns that the table has now: blocks that went the long way may have widened them. */
  private kernelNow(): StepKernel {
    const { table } = this.machine;
    if (this.kernel === undefined || this.x !== table.x || this.arcs !== table.arcs) {
      this.kernel = kernelFor(this.bytes, table, this.runOf);
      this.x = table.x;
      this.arcs = table.arcs;
    }
    return this.kernel;
  }
}

/** Whether the state allows the short way at all. */
export function allowsFastLines(machine: Machine): boolean {
  const { v, pending } = machine.state;
  const motion = v[S.motion];
  return (
    pending === null &&
    v[S.ended] === 0 &&
    v[S.distance] === 90 &&
    (v[S.feed_mode] === 94 || v[S.feed_mode] === 95) &&
    (v[S.compensation] === 40 || !(v[S.comp_radius] > 0)) &&
    (motion === 0 || motion === 10 || motion === 20 || motion === 30) &&
    Number.isNaN(v[S.cycle]) &&
    Number.isNaN(v[S.skip_until_n]) &&
    v[S.turned] === 0 &&
    v[S.scaled] === 0 &&
    Number.isNaN(v[S.mirror_x]) &&
    Number.isNaN(v[S.mirror_y]) &&
    Number.isNaN(v[S.mirror_z]) &&
    v[S.polar] === 0 &&
    v[S.lost] === 0 &&
    v[S.arc_absolute] === 0
  );
}

/** Puts the state into the box of the kernel. */
function putIn(machine: Machine, box: Float64Array): void {
  const { settings, table, unit } = machine;
  const { v } = machine.state;
  box[at.boxX] = v[S.x];
  box[at.boxY] = v[S.y];
  box[at.boxZ] = v[S.z];
  box[at.boxMotion] = v[S.motion];
  box[at.boxFeed] = v[S.feed];
  box[at.boxLine] = machine.line;
  box[at.boxCount] = table.count;
  box[at.boxRoom] = table.capacity;
  box[at.boxArcs] = table.arcCount;
  box[at.boxArcRoom] = table.arcs.length / ARC_WIDTH;
  box[at.boxPlane] = v[S.plane];
  const { floor_mm, relative, cap_mm } = arcTolerance(machine);
  box[at.boxFloor] = floor_mm;
  box[at.boxRelative] = relative;
  box[at.boxCap] = cap_mm;
  const least = v[S.inch] === 1 ? settings.least_increment_inch : settings.least_increment_mm;
  box[at.boxIncrements] = least === 0 ? 1 : Math.round(1 / least);
  box[at.boxMostNumber] = machine.report ? LARGEST_N : at.anyNumber;
  box[at.boxFeedIsLength] = v[S.feed_mode] === 94 ? 0 : 1;
  box.fill(unit, at.boxScale, at.boxScale + 16);
  box[at.boxScale + letterX] = v[S.diameter] === 1 ? unit * 0.5 : unit;
  box[at.boxScale + letterN] = 1;
  box[at.boxShift + letterX] = v[S.local_x] + v[S.set_x];
  box[at.boxShift + letterY] = v[S.local_y] + v[S.set_y];
  box[at.boxShift + letterZ] = v[S.local_z] + v[S.set_z];
}

/** Takes the state out of it. */
function takeOut(machine: Machine, box: Float64Array): void {
  const { table } = machine;
  const { v } = machine.state;
  v[S.x] = box[at.boxX];
  v[S.y] = box[at.boxY];
  v[S.z] = box[at.boxZ];
  v[S.motion] = box[at.boxMotion];
  v[S.feed] = box[at.boxFeed];
  if (box[at.boxBegun] === 1) v[S.begun] = 1;
  machine.line = box[at.boxLine];
  table.count = box[at.boxCount];
  table.arcCount = box[at.boxArcs];
  if (box[at.boxUnplain] === 1) machine.pointed_words = -1;
  else if (machine.pointed_words >= 0) machine.pointed_words += box[at.boxPoints];
}
