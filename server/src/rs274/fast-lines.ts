import { ends, fastArc } from './fast-arcs.ts';
import {
  AXES,
  AXIS_OR_CENTRE,
  BLANK,
  BYTE,
  CENTRE,
  ENDS_BADLY,
  F,
  FEED,
  G,
  LINE_END,
  N,
  values,
  X,
  Y,
  Z,
} from './fast-words.ts';
import type { Machine } from './machine.ts';
import { POWERS_OF_TEN } from './read-number.ts';
import { S } from './state.ts';
import { KIND, RUN, RUN_WIDTH } from './steps.ts';

/**
 * The short way for the blocks that long programs are made of: G0 to G3 with X Y Z I J K R F N and plain numbers, absolute,
 * no cycle, no compensation, no coordinate change. Everything else goes the long way (block-reader.ts, executor.ts), with
 * the same result; a test compares both.
 */

/** Digits that a 32-bit integer surely holds. */
const MOST_DIGITS = 9;

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

/** What a letter's number is multiplied by and moved by. */
const scale = new Float64Array(16);
const shift = new Float64Array(16);

/**
 * Executes lines from `start` as long as they are plain; `limit` stands after a line end. Returns where it stopped: at
 * `limit` or at the start of a line for the long way. The machine's line counts on.
 */
export function runFastLines(machine: Machine, bytes: Uint8Array, start: number, limit: number): number {
  const { v } = machine.state;
  const { table } = machine;
  const whole = prepare(machine);
  const whole_feed = whole === 1 || v[S.feed_mode] === 94;
  let x = v[S.x];
  let y = v[S.y];
  let z = v[S.z];
  let motion = v[S.motion] | 0;
  let feed = v[S.feed];
  let run = -1;
  let run_motion = -1;
  let run_feed = -1;
  const run_base = table.runCount;
  let line = machine.line;
  let pos = start;
  let begun = false;
  let points = 0;
  let unplain = false;
  let column_line = table.line;
  let column_kind = table.kind;
  let column_flags = table.flags;
  let column_run = table.run;
  let column_x = table.x;
  let column_y = table.y;
  let column_z = table.z;
  let column_aux = table.aux;
  let count = table.count;
  let room = table.capacity;

  lines: while (pos < limit) {
    let p = pos;
    let seen = 0;
    let next_motion = motion;
    for (;;) {
      let c = bytes[p];
      p += 1;
      const what = BYTE[c];
      if (what === BLANK) continue;
      if (what === LINE_END) {
        if (c === 13 && bytes[p] === 10) p += 1;
        break;
      }
      const bit = 1 << what;
      if ((seen & bit) !== 0 || what === 0) break lines;
      seen |= bit;
      c = bytes[p];
      while (c === 32) {
        p += 1;
        c = bytes[p];
      }
      const negative = c === 45;
      if (negative || c === 43) {
        p += 1;
        c = bytes[p];
      }
      const from = p;
      let digits = 0;
      while (c >= 48 && c <= 57) {
        digits = (digits * 10 + (c - 48)) | 0;
        p += 1;
        c = bytes[p];
      }
      let value = digits;
      let length = p - from;
      if (c === 46) {
        p += 1;
        c = bytes[p];
        const fraction_from = p;
        while (c >= 48 && c <= 57) {
          digits = (digits * 10 + (c - 48)) | 0;
          p += 1;
          c = bytes[p];
        }
        const fraction = p - fraction_from;
        length += fraction;
        if (length > MOST_DIGITS || what === G) break lines;
        value = digits / POWERS_OF_TEN[fraction];
        if (what <= Z) points += 1;
      } else if (what === G) {
        if (length !== 0 && digits <= 3 && !negative && c !== 43) next_motion = digits * 10;
        else break lines;
      } else {
        if (what <= Z && digits !== 0) unplain = true;
        if (whole !== 1) {
          if (what !== F && what !== N) value = digits / whole;
          else if (what === F && !whole_feed) break lines;
        }
      }
      if (length === 0 || length > MOST_DIGITS || ENDS_BADLY[c] === 1) break lines;
      values[what] = (negative ? -value : value) * scale[what] + shift[what];
    }
    let next_feed = feed;
    if ((seen & FEED) !== 0) {
      next_feed = values[F];
      if (next_feed < 0) break;
    }
    if ((seen & AXIS_OR_CENTRE) !== 0) {
      const to_x = (seen & (1 << X)) !== 0 ? values[X] : x;
      const to_y = (seen & (1 << Y)) !== 0 ? values[Y] : y;
      const to_z = (seen & (1 << Z)) !== 0 ? values[Z] : z;
      let aux = -1;
      let kind = KIND_RAPID;
      if (next_motion >= 20) {
        ends[0] = x;
        ends[1] = y;
        ends[2] = z;
        ends[3] = to_x;
        ends[4] = to_y;
        ends[5] = to_z;
        aux = fastArc(machine, seen, next_motion);
        if (aux < 0) break;
        kind = KIND_ARC;
      } else if ((seen & AXES) === 0 || (seen & CENTRE) !== 0) {
        break;
      } else if (next_motion === 10) {
        kind = KIND_FEED;
      }
      if (next_motion !== run_motion || next_feed !== run_feed) {
        run = findRun(machine, run_base, next_motion, next_feed);
        run_motion = next_motion;
        run_feed = next_feed;
      }
      if (count >= room) {
        table.count = count;
        table.ensure(1);
        room = table.capacity;
        column_line = table.line;
        column_kind = table.kind;
        column_flags = table.flags;
        column_run = table.run;
        column_x = table.x;
        column_y = table.y;
        column_z = table.z;
        column_aux = table.aux;
      }
      column_line[count] = line;
      column_kind[count] = kind;
      column_flags[count] = 0;
      column_run[count] = run;
      column_x[count] = to_x;
      column_y[count] = to_y;
      column_z[count] = to_z;
      column_aux[count] = aux;
      count += 1;
      x = to_x;
      y = to_y;
      z = to_z;
    }
    motion = next_motion;
    feed = next_feed;
    if (seen !== 0) begun = true;
    line += 1;
    pos = p;
  }

  table.count = count;
  if (unplain) machine.plain_points = -1;
  else if (machine.plain_points >= 0) machine.plain_points += points;
  machine.line = line;
  v[S.x] = x;
  v[S.y] = y;
  v[S.z] = z;
  v[S.motion] = motion;
  v[S.feed] = feed;
  if (begun) v[S.begun] = 1;
  return pos;
}

/** Fills the scales for the state in force; returns how many least increments make a unit (1: words are whole units). */
function prepare(machine: Machine): number {
  const { v } = machine.state;
  const { unit, settings } = machine;
  scale.fill(unit);
  scale[X] = v[S.diameter] === 1 ? unit * 0.5 : unit;
  scale[N] = 1;
  shift[X] = v[S.local_x] + v[S.set_x];
  shift[Y] = v[S.local_y] + v[S.set_y];
  shift[Z] = v[S.local_z] + v[S.set_z];
  const least = v[S.inch] === 1 ? settings.least_increment_inch : settings.least_increment_mm;
  return least === 0 ? 1 : Math.round(1 / least);
}

const KIND_RAPID = KIND.rapid;
const KIND_FEED = KIND.feed;
const KIND_ARC = KIND.arc;

/** Run for another motion code and feed in the same state: one made in this stretch of plain lines, or a new one. */
function findRun(machine: Machine, base: number, motion: number, feed: number): number {
  const { table } = machine;
  const { runs } = table;
  const oldest = Math.max(base, table.runCount - 8);
  for (let row = table.runCount - 1; row >= oldest; row -= 1) {
    const same_feed = runs[row * RUN_WIDTH + RUN.feed];
    const equal = same_feed === feed || (Number.isNaN(same_feed) && Number.isNaN(feed));
    if (equal && runs[row * RUN_WIDTH + RUN.motion] === motion) return row;
  }
  const { v } = machine.state;
  v[S.motion] = motion;
  v[S.feed] = feed;
  return machine.runRow();
}
