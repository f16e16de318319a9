import type { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN, STEP_FLAG } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { Collision, KeepOutBox } from '../../stock/keep-out.ts';
import { type LatheEnd, latheHits } from '../../stock/lathe-keep-out.ts';
import type { Program } from '../program.ts';
import { keepOutsAt } from './stock-of.ts';

const MOVES = new Set<number>([KIND.rapid, KIND.feed, KIND.arc, KIND.thread]);
const ARC_PIECES = 24;
/** So far at least a tool for outside work stands away from the axis at its point, mm. */
const REACH_MM = 5;

/** First contacts of a lathe step with chuck, jaws, tailstock or steady rest; of the cutting end alone, as the holder's shape is not known. */
export function latheCollisions(program: Program, step: StepCursor): Collision[] {
  if (!MOVES.has(step.kind) || (step.flags & STEP_FLAG.machine_frame) !== 0) return [];
  if (!Number.isFinite(step.x0 + step.z0 + step.x + step.z)) return [];
  const boxes = latheKeepOuts(program, step);
  if (boxes.length === 0) return [];
  const end = endOf(program.tool(step.runValues[RUN.tool]));
  const rapid = step.kind === KIND.rapid;
  const first = new Map<number, Collision>();
  let from: readonly [number, number] = [step.z0, step.x0];
  for (const to of pointsOf(step)) {
    for (const { box, at } of latheHits(from, to, end, boxes))
      if (!first.has(box))
        first.set(box, { move: step.index, box, part: 'tool', rapid, at: [at[1], Number.NaN, at[0]] });
    from = to;
  }
  return [...first.values()];
}

/** What stands in the way at the step's work offset. */
export function latheKeepOuts(program: Program, step: StepCursor): KeepOutBox[] {
  return keepOutsAt(program, step.runValues[RUN.frame], true);
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
function endOf(tool: ToolKnown | undefined): LatheEnd {
  const kind = tool?.kind?.value;
  const blade = kind === 'groove' || kind === 'part-off';
  const outside = blade || kind === 'turn' || kind === 'thread-turn';
  return {
    width_mm: blade ? (tool?.width_mm?.value ?? 0) : 0,
    height_mm: outside ? REACH_MM : kind === 'bore-bar' ? 0 : (tool?.diameter_mm?.value ?? 0) / 2,
  };
}
