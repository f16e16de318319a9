import { type Block, L, WORD } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** m/min in one ft/min. */
const METRE_PER_FOOT = 0.3048;

/** Feed mode, spindle mode, F and S (steps 2 to 4 of the order of execution). */
export function executeFeedAndSpindle(machine: Machine, block: Block, codes: BlockCodes): void {
  feedMode(machine, codes);
  if (block.has(L.F) && !takesF(codes)) feed(machine, block);
  if (block.spindle > 0) otherSpindle(machine, block, codes);
  else spindle(machine, block, codes);
}

const LOCKED: ReadonlySet<string> = new Set([
  'feed-per-revolution',
  'thread',
  'rigid-tap',
  'multi-pass-thread',
]);
const TAPPING: ReadonlySet<number> = new Set([74, 84]);

/** Words for another spindle (`$n`, n over 0) change nothing of the main one; moves that are locked to it are not known. */
function otherSpindle(machine: Machine, block: Block, codes: BlockCodes): void {
  const locked = codes.rows.some(
    row => LOCKED.has(row.effect) || (row.effect === 'drill-cycle' && TAPPING.has(row.number)),
  );
  if (!locked) return;
  const text = `feed or moves locked to spindle ${block.spindle} are not followed; its speed is not kept`;
  machine.problem('not-followed', 0, block.length, text);
}

function feedMode(machine: Machine, codes: BlockCodes): void {
  const { v } = machine.state;
  const before = v[S.feed_mode];
  if (codes.has('inverse-time')) v[S.feed_mode] = 93;
  else if (codes.has('feed-per-minute')) v[S.feed_mode] = 94;
  else if (codes.has('feed-per-revolution')) v[S.feed_mode] = 95;
  if (v[S.feed_mode] !== before) v[S.feed] = Number.NaN;
}

/** F that is data of the code: of a dwell, of a macro call. */
function takesF(codes: BlockCodes): boolean {
  return codes.has('dwell');
}

function feed(machine: Machine, block: Block): void {
  const { v } = machine.state;
  const at = block.index(L.F);
  const value = block.value[at];
  if (value < 0) {
    machine.problemAt(block, at, 'feed-negative', 'the feed is negative');
    v[S.feed] = Number.NaN;
    return;
  }
  const mode = v[S.feed_mode];
  const least = v[S.inch] === 1 ? machine.settings.least_increment_inch : machine.settings.least_increment_mm;
  if (mode === 95 && least !== 0 && value >= 1 && (block.marks[at] & WORD.point) === 0) {
    machine.problemAt(
      block,
      at,
      'feed-form-unknown',
      'F without a point: the control decides what it means per revolution',
    );
    v[S.feed] = Number.NaN;
    return;
  }
  v[S.feed] = mode === 93 ? value : value * machine.unit;
}

function spindle(machine: Machine, block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  const surface = codes.find('surface-speed');
  const direct = codes.find('spindle-direct');
  const css = surface >= 0 ? 1 : direct >= 0 ? 0 : v[S.css];
  if (css !== v[S.css]) {
    v[S.css] = css;
    v[S.spindle] = Number.NaN;
  }
  if (surface >= 0 && machine.report && block.has(L.D)) v[S.clamp_rpm] = block.number(L.D);
  if (!block.has(L.S)) return;
  const at = block.index(L.S);
  const value = block.value[at];
  if (value < 0) {
    machine.problemAt(block, at, 'speed-negative', 'the spindle speed is negative');
    return;
  }
  if (codes.has('clamp-or-position') || (codes.has('set-position') && !machine.report)) {
    v[S.clamp_rpm] = value;
    return;
  }
  if (css === 1) v[S.spindle] = v[S.inch] === 1 ? value * METRE_PER_FOOT : value;
  else v[S.spindle] = value;
}
