import { type Block, L } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import { programmedPoint } from './coordinate-change.ts';
import { dwellOfBlock } from './dwell.ts';
import { executeFrames } from './execute-frames.ts';
import { executeLength } from './execute-length.ts';
import { executeReference } from './execute-reference.ts';
import { executeSetData } from './execute-set-data.ts';
import { offsetColumn, turnByFrame } from './frame-columns.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { KIND } from './steps.ts';
import { storeReference } from './stored-reference.ts';
import { AXIS, namesAxes, readTarget, Target } from './targets.ts';

const target = new Target();
const shown = new Float64Array(3);

/**
 * Dwell, work offsets, shifts, reference positions and machine coordinates (steps 10, 15 and 19 of the order).
 * Returns whether one of them used the axis words of the block.
 */
export function executeOffsets(machine: Machine, block: Block, codes: BlockCodes): boolean {
  let used = false;
  for (let i = 0; i < codes.rows.length; i += 1) {
    const row = codes.rows[i];
    switch (row.effect) {
      case 'dwell':
        dwell(machine, block, codes.words[i]);
        // The report's dwell takes P alone; the axis words beside it are of the motion that follows.
        if (!machine.report) used = true;
        break;
      case 'work-offset':
        selectOffset(machine, block, row.number);
        break;
      case 'extra-work-offset':
        selectFrame(machine, 54100 + (block.has(L.P) ? block.number(L.P) : Number.NaN));
        break;
      case 'set-data':
        executeSetData(machine, block);
        used = true;
        break;
      case 'reference':
      case 'second-reference':
      case 'reference-check':
      case 'return-from-reference':
        executeReference(machine, block, row.effect);
        used = true;
        break;
      case 'store-reference':
      case 'store-second-reference':
        storeReference(machine, row.effect === 'store-reference' ? 'first' : 'second');
        break;
      case 'machine-coordinates':
        used = machineMove(machine, block, codes);
        break;
      case 'local-shift':
        localShift(machine, block);
        used = true;
        break;
      case 'clamp-or-position':
      case 'set-position':
        if (namesAxes(block)) {
          setPosition(machine, block);
          used = true;
        } else if (!block.has(L.S)) {
          machine.problemAt(
            block,
            codes.words[i],
            'axis-word-missing',
            `G${row.number} without axis words does nothing`,
          );
        }
        break;
      case 'clear-position':
        clearPosition(machine);
        used = true;
        break;
      case 'suspend-position':
        keepPosition(machine);
        break;
      case 'restore-position':
        restorePosition(machine);
        break;
      case 'length-offset':
      case 'length-offset-minus':
      case 'length-offset-off':
      case 'length-offset-words':
      case 'length-offset-add':
        if (executeLength(machine, block, row.effect)) used = true;
        break;
      case 'accepted':
        if (row.group === 'stroke-check') used = true;
        break;
      default:
        if (executeFrames(machine, block, row, codes.words[i])) used = true;
        break;
    }
  }
  return used;
}

function dwell(machine: Machine, block: Block, word: number): void {
  const seconds = dwellOfBlock(machine, block);
  if (Number.isNaN(seconds)) machine.problemAt(block, word, 'dwell-time-missing', 'the dwell has no time');
  else if (seconds < 0) machine.problemAt(block, word, 'dwell-time-negative', 'the dwell time is negative');
  const step = machine.step(KIND.dwell);
  machine.table.seconds.set(step, Math.max(0, seconds));
}

function selectOffset(machine: Machine, block: Block, number: number): void {
  if (number === 54 && !machine.report && block.has(L.P)) selectFrame(machine, 54100 + block.number(L.P));
  else selectFrame(machine, Math.round(number * 10));
}

/** Changes the work offset: the position is known again where both offsets are. */
function selectFrame(machine: Machine, frame: number): void {
  const { v } = machine.state;
  const before = v[S.frame];
  if (before === frame) return;
  v[S.frame] = frame;
  turnByFrame(machine);
  if (Number.isNaN(before) && frame === 540) return;
  const from = offsetColumn(Number.isNaN(before) ? 540 : before);
  const to = offsetColumn(frame);
  let changed = false;
  for (let axis = 0; axis < 3; axis += 1) {
    const known = from >= 0 && to >= 0 ? v[from + axis] - v[to + axis] : Number.NaN;
    const old = v[S.x + axis];
    v[S.x + axis] = old + known;
    if (!Number.isNaN(old) && v[S.x + axis] !== old) changed = true;
  }
  if (changed) machine.place();
}

const SHIFTS = [
  { bit: AXIS.x, at: S.x, letter: L.X, increment: L.U, local: S.local_x, set: S.set_x, kept: S.kept_x },
  { bit: AXIS.y, at: S.y, letter: L.Y, increment: L.V, local: S.local_y, set: S.set_y, kept: S.kept_y },
  { bit: AXIS.z, at: S.z, letter: L.Z, increment: L.W, local: S.local_z, set: S.set_z, kept: S.kept_z },
] as const;

/** G52: the shift of the named axes; the position in the work offset stays. */
function localShift(machine: Machine, block: Block): void {
  const { v } = machine.state;
  for (const axis of SHIFTS) {
    const at = block.index(axis.letter);
    if (at < 0) continue;
    // The report's successor keeps G52 and G92 in one place.
    v[machine.report ? axis.set : axis.local] =
      axis.bit === AXIS.x ? machine.lengthAlongX(block, at) : machine.length(block, at);
  }
}

/**
 * G92, and G50 of code system A: the present point gets these coordinates. Where the position was not known, the words
 * become it.
 */
function setPosition(machine: Machine, block: Block): void {
  const { v } = machine.state;
  let placed = false;
  // Under a turned work offset the shift is one of the turned axes.
  if (v[S.turned] !== 0) programmedPoint(machine, shown);
  for (const [index, axis] of SHIFTS.entries()) {
    const at = block.index(axis.letter);
    if (at >= 0) {
      const value = axis.bit === AXIS.x ? machine.lengthAlongX(block, at) : machine.length(block, at);
      if (Number.isNaN(v[axis.at])) {
        v[axis.set] = 0;
        v[axis.at] = value + v[axis.local];
        placed = true;
      } else {
        v[axis.set] = (v[S.turned] !== 0 ? shown[index] : v[axis.at]) - v[axis.local] - value;
      }
    }
    const step = machine.lathe_words ? block.index(axis.increment) : -1;
    if (step >= 0) {
      v[axis.set] -= axis.bit === AXIS.x ? machine.lengthAlongX(block, step) : machine.length(block, step);
    }
  }
  if (placed) machine.place();
}

function clearPosition(machine: Machine): void {
  const { v } = machine.state;
  for (const axis of SHIFTS) {
    v[axis.set] = 0;
    v[axis.kept] = 0;
    if (!machine.report) v[axis.local] = 0;
  }
}

function keepPosition(machine: Machine): void {
  const { v } = machine.state;
  for (const axis of SHIFTS) {
    v[axis.kept] = v[axis.set];
    v[axis.set] = 0;
  }
}

function restorePosition(machine: Machine): void {
  const { v } = machine.state;
  for (const axis of SHIFTS) v[axis.set] = v[axis.kept];
}

/**
 * G53: this block only in machine coordinates. The step is written in them; after it the position in the work offset is
 * known for the axes that did not move, and for the others where the program sets the offset (never along the tool
 * while a length offset is on).
 */
function machineMove(machine: Machine, block: Block, codes: BlockCodes): boolean {
  const { v } = machine.state;
  if (!namesAxes(block)) return false;
  const coded = codes.has('rapid') ? 0 : codes.has('feed') ? 10 : v[S.motion];
  // Word-address controls go there at rapid unless G1 is in force (common practice, no source).
  const motion = machine.report || coded === 10 ? coded : 0;
  if (motion !== 0 && motion !== 10) {
    machine.problem('machine-move-without-line', 0, block.length, 'G53 needs G0 or G1');
    return true;
  }
  if (coded === motion) v[S.motion] = motion;
  const [local, set] = [v.slice(S.local_x, S.local_x + 3), v.slice(S.set_x, S.set_x + 3)];
  const distance = v[S.distance];
  v.fill(0, S.local_x, S.set_z + 1);
  v[S.distance] = 90;
  readTarget(machine, block, target);
  v.set(local, S.local_x);
  v.set(set, S.set_x);
  v[S.distance] = distance;
  const frame = v[S.frame];
  const stay = [v[S.x], v[S.y], v[S.z]];
  const to = [target.x, target.y, target.z];
  v[S.frame] = 530;
  machine.forget(7);
  for (let axis = 0; axis < 3; axis += 1)
    v[S.x + axis] = (target.named & (1 << axis)) !== 0 ? to[axis] : Number.NaN;
  machine.step(motion === 0 ? KIND.rapid : KIND.feed, machine.frameFlag);
  v[S.frame] = frame;
  const column = offsetColumn(frame);
  for (let axis = 0; axis < 3; axis += 1) {
    const moved = (target.named & (1 << axis)) !== 0;
    // Elsewhere than in the report what G43 does is not followed here.
    const along_tool = axis === 2 && v[S.length_offset] !== 0;
    const offset = machine.report ? v[S.tlo_x + axis] : along_tool ? Number.NaN : 0;
    v[S.x + axis] = !moved ? stay[axis] : column < 0 ? Number.NaN : to[axis] - v[column + axis] - offset;
  }
  machine.place();
  return true;
}
