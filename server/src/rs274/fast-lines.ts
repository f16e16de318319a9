import { arcTolerance } from './arc-words.ts';
import type { Machine } from './machine.ts';
import { POWERS_OF_TEN } from './read-number.ts';
import { S } from './state.ts';
import { KIND, RUN, RUN_WIDTH } from './steps.ts';

/**
 * The short way for the blocks that long programs are made of: G0 to G3 with X Y Z I J K F N and plain numbers, absolute,
 * no cycle, no compensation, no coordinate change. Everything else goes the long way (block-reader.ts, executor.ts), with
 * the same result; a test compares both.
 */

/** What a byte is: 0 anything else, 1 blank, 2 line end, then the letters. */
const BYTE = new Uint8Array(256);
const [BLANK, LINE_END, G, X, Y, Z, I, J, K, F, N] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
for (const [letters, class_] of [
  ['Gg', G],
  ['Xx', X],
  ['Yy', Y],
  ['Zz', Z],
  ['Ii', I],
  ['Jj', J],
  ['Kk', K],
  ['Ff', F],
  ['Nn', N],
] as const) {
  for (const letter of letters) BYTE[letter.charCodeAt(0)] = class_;
}
BYTE[32] = BLANK;
BYTE[9] = BLANK;
BYTE[10] = LINE_END;
BYTE[13] = LINE_END;

/** Digits that a 32-bit integer surely holds. */
const MOST_DIGITS = 9;
const SAME_POINT_MM = 1e-7;
const TURN = 2 * Math.PI;

/** Whether the state allows the short way at all. */
export function allowsFastLines(machine: Machine): boolean {
  const { v, pending } = machine.state;
  const motion = v[S.motion];
  return (
    pending === null &&
    v[S.ended] === 0 &&
    v[S.distance] === 90 &&
    (v[S.feed_mode] === 94 || v[S.feed_mode] === 95) &&
    (v[S.compensation] === 40 || machine.settings.compensation !== 'part-edge') &&
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

/**
 * Executes lines from `start` as long as they are plain; `limit` stands after a line end. Returns where it stopped: at
 * `limit` or at the start of a line for the long way. The machine's line counts on.
 */
export function runFastLines(machine: Machine, bytes: Uint8Array, start: number, limit: number): number {
  const { v } = machine.state;
  const { table } = machine;
  const unit = machine.unit;
  const along_x = v[S.diameter] === 1 ? unit * 0.5 : unit;
  const least = v[S.inch] === 1 ? machine.settings.least_increment_inch : machine.settings.least_increment_mm;
  const whole = least === 0 ? 1 : Math.round(1 / least);
  const per_minute = v[S.feed_mode] === 94 || least === 0;
  const plane = v[S.plane];
  const shift_x = v[S.local_x] + v[S.set_x];
  const shift_y = v[S.local_y] + v[S.set_y];
  const shift_z = v[S.local_z] + v[S.set_z];
  const tolerance = arcTolerance(machine);
  const { floor_mm, relative, cap_mm } = tolerance;
  let x = v[S.x];
  let y = v[S.y];
  let z = v[S.z];
  let motion = v[S.motion];
  let feed = v[S.feed];
  let run = -1;
  let run_motion = -1;
  let run_feed = -1;
  const run_base = table.runCount;
  let line = machine.line;
  let pos = start;
  let begun = false;
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
    let next_feed = feed;
    let to_x = x;
    let to_y = y;
    let to_z = z;
    let i = 0;
    let j = 0;
    let k = 0;
    for (;;) {
      let c = bytes[p];
      p += 1;
      const what = BYTE[c];
      if (what === BLANK) continue;
      if (what === LINE_END) {
        if (c === 13 && bytes[p] === 10) p += 1;
        break;
      }
      if (what === 0) break lines;
      const bit = 1 << what;
      if ((seen & bit) !== 0) break lines;
      seen |= bit;
      c = bytes[p];
      while (c === 32) {
        p += 1;
        c = bytes[p];
      }
      let negative = false;
      if (c === 45) {
        negative = true;
        p += 1;
        c = bytes[p];
      } else if (c === 43) {
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
      let point = false;
      if (c === 46) {
        point = true;
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
        if (length > MOST_DIGITS) break lines;
        value = fraction === 0 ? digits : digits / POWERS_OF_TEN[fraction];
      } else if (length > MOST_DIGITS) {
        break lines;
      }
      if (length === 0 || c === 46 || c === 44 || c === 79 || c === 111 || c === 69 || c === 101) break lines;
      if (negative) value = -value;
      switch (what) {
        case X:
          to_x = (point ? value : value / whole) * along_x + shift_x;
          break;
        case Y:
          to_y = (point ? value : value / whole) * unit + shift_y;
          break;
        case Z:
          to_z = (point ? value : value / whole) * unit + shift_z;
          break;
        case G:
          if (point || value > 3 || value < 0 || negative) break lines;
          next_motion = value * 10;
          break;
        case F:
          if (value < 0 || !(per_minute || point)) break lines;
          next_feed = value * unit;
          break;
        case I:
          i = (point ? value : value / whole) * unit;
          break;
        case J:
          j = (point ? value : value / whole) * unit;
          break;
        case K:
          k = (point ? value : value / whole) * unit;
          break;
        default:
          break;
      }
    }
    if ((seen & AXIS_OR_CENTRE) !== 0) {
      let aux = -1;
      let kind = KIND_RAPID;
      if (next_motion >= 20) {
        const first = plane === 17 ? x : z;
        const second = plane === 17 ? y : x;
        const first_offset = plane === 17 ? i : k;
        const second_offset = plane === 17 ? j : i;
        if (plane === 19 || (seen & (plane === 17 ? WANTED_XY : WANTED_ZX)) === 0) break;
        if ((seen & (plane === 17 ? STRANGE_XY : STRANGE_ZX)) !== 0) break;
        const centre_first = first + first_offset;
        const centre_second = second + second_offset;
        const end_first = (plane === 17 ? to_x : to_z) - centre_first;
        const end_second = (plane === 17 ? to_y : to_x) - centre_second;
        const start_radius = Math.sqrt(first_offset * first_offset + second_offset * second_offset);
        const end_radius = Math.sqrt(end_first * end_first + end_second * end_second);
        const larger = start_radius > end_radius ? start_radius : end_radius;
        const share = relative * larger;
        const capped = share < cap_mm ? share : cap_mm;
        const off = start_radius - end_radius;
        const allowed = floor_mm > capped ? floor_mm : capped;
        // Written so that a position that is not known fails it.
        if (
          !(off <= allowed && off >= -allowed && start_radius >= SAME_POINT_MM && end_radius >= SAME_POINT_MM)
        )
          break;
        const cross = -first_offset * end_second + second_offset * end_first;
        const dot = -first_offset * end_first - second_offset * end_second;
        const moved_first = end_first + first_offset;
        const moved_second = end_second + second_offset;
        const chord = moved_first * moved_first + moved_second * moved_second;
        let sweep = chord < SAME_POINT_MM * SAME_POINT_MM ? 0 : Math.atan2(cross, dot);
        if (next_motion === 30) {
          if (sweep <= 0) sweep += TURN;
        } else if (sweep >= 0) sweep -= TURN;
        aux = table.addArc(centre_first, centre_second, sweep);
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
  machine.line = line;
  v[S.x] = x;
  v[S.y] = y;
  v[S.z] = z;
  v[S.motion] = motion;
  v[S.feed] = feed;
  if (begun) v[S.begun] = 1;
  return pos;
}

const KIND_RAPID = KIND.rapid;
const KIND_FEED = KIND.feed;
const KIND_ARC = KIND.arc;
const AXES = (1 << X) | (1 << Y) | (1 << Z);
const AXIS_OR_CENTRE = AXES | (1 << I) | (1 << J) | (1 << K);
const CENTRE = AXIS_OR_CENTRE & ~AXES;
const WANTED_XY = (1 << I) | (1 << J);
const WANTED_ZX = (1 << K) | (1 << I);
const STRANGE_XY = 1 << K;
const STRANGE_ZX = 1 << J;

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
