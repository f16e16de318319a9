import type { StepCursor } from '../../rs274/index.ts';
import { Slot } from '../../rs274/slot.ts';
import { KIND, RUN, STEP_FLAG } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { Collision, KeepOutBox } from '../../stock/keep-out.ts';
import { type LatheBody, type LatheHit, latheHits } from '../../stock/lathe-keep-out.ts';
import type { Program } from '../program.ts';
import type { HolderBody } from './holder-body.ts';
import { keepOutsAt } from './stock-of.ts';

const MOVES = new Set<number>([KIND.rapid, KIND.feed, KIND.arc, KIND.thread]);
const ARC_PIECES = 24;
/** So far at least a tool for outside work stands away from the axis at its point, mm. */
const REACH_MM = 5;

/** First contacts of the cutting end with chuck, jaws, tailstock or steady rest on a lathe step. */
export function latheCollisions(program: Program, step: StepCursor): Collision[] {
  if (!followed(step)) return [];
  const boxes = latheKeepOuts(program, step);
  if (boxes.length === 0) return [];
  const rapid = step.kind === KIND.rapid;
  return contacts(step, endOf(program.tool(step.runValues[RUN.tool])), boxes).map(({ box, at }) => {
    return { move: step.index, box, part: 'tool', rapid, at: [at[1], Number.NaN, at[0]] };
  });
}

/** First contacts of a holder, with the names of what it meets. */
export function holderContacts(
  program: Program,
  step: StepCursor,
  body: HolderBody,
): { what: string; at: readonly [number, number, number] }[] {
  if (!followed(step) || (body.on_axis && (step.x !== 0 || step.x0 !== 0))) return [];
  const boxes = latheKeepOuts(program, step);
  if (boxes.length === 0) return [];
  return contacts(step, body, boxes).map(({ box, at }) => {
    return { what: boxes[box].what, at: [at[1], Number.NaN, at[0]] };
  });
}

function followed(step: StepCursor): boolean {
  if (!MOVES.has(step.kind) || (step.flags & STEP_FLAG.machine_frame) !== 0) return false;
  return Number.isFinite(step.x0 + step.z0 + step.x + step.z);
}

function contacts(step: StepCursor, body: LatheBody, boxes: readonly KeepOutBox[]): LatheHit[] {
  const first = new Map<number, LatheHit>();
  let from: readonly [number, number] = [step.z0, step.x0];
  for (const to of pointsOf(step)) {
    for (const hit of latheHits(from, to, body, boxes)) if (!first.has(hit.box)) first.set(hit.box, hit);
    from = to;
  }
  return [...first.values()];
}

const keepOuts = new Slot<Program, Map<number, KeepOutBox[]>>();

/** What stands in the way at the step's work offset. */
export function latheKeepOuts(program: Program, step: StepCursor): KeepOutBox[] {
  const frame = step.runValues[RUN.frame];
  let held = keepOuts.get(program);
  if (!held) {
    held = new Map();
    keepOuts.set(program, held);
  }
  let boxes = held.get(frame);
  if (!boxes) {
    boxes = keepOutsAt(program, frame, true);
    held.set(frame, boxes);
  }
  return boxes;
}

function* pointsOf(step: StepCursor): Generator<readonly [number, number]> {
  const { centre_first: cz, centre_second: cx, sweep_rad } = step;
  if (step.kind === KIND.arc && Number.isFinite(cz + cx + sweep_rad)) {
    const radius = Math.hypot(step.z0 - cz, step.x0 - cx);
    const start = Math.atan2(step.x0 - cx, step.z0 - cz);
    for (let k = 1; k < ARC_PIECES; k++) {
      const angle = start + (sweep_rad * k) / ARC_PIECES;
      yield [cz + radius * Math.cos(angle), cx + radius * Math.sin(angle)];
    }
  }
  yield [step.z, step.x];
}

/** A blade's programmed point is its corner towards the chuck. */
function endOf(tool: ToolKnown | undefined): LatheBody {
  const kind = tool?.kind?.value;
  const blade = kind === 'groove' || kind === 'part-off';
  const outside = blade || kind === 'turn' || kind === 'thread-turn';
  const height = outside ? REACH_MM : kind === 'bore-bar' ? 0 : (tool?.diameter_mm?.value ?? 0) / 2;
  return { z_mm: [0, blade ? (tool?.width_mm?.value ?? 0) : 0], x_mm: [0, height] };
}
