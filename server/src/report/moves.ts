import { edgeFacts } from '../review/facts.ts';
import { frameName } from '../review/frame-name.ts';
import { motionTimes } from '../review/motion.ts';
import type { Program } from '../review/program.ts';
import { stepMinutes } from '../review/step-time.ts';
import type { StepCursor } from '../rs274/index.ts';
import { KIND, RUN, STEP_FLAG, STEP_KINDS } from '../rs274/steps.ts';

type Json = Record<string, unknown>;
const CUTS = new Set<number>([KIND.feed, KIND.arc, KIND.thread, KIND.tap]);
const PLANES: Record<number, string> = { 17: 'xy', 18: 'zx', 19: 'yz' };

/** The executed moves as JSON objects, in execution order; `emit` is called once a move. */
export function moves(program: Program, emit: (move: Json) => void): void {
  const cursor = program.reading.cursor();
  while (cursor.next()) {
    if (cursor.kind !== KIND.place) emit(moveJson(program, cursor));
  }
}

function moveJson(program: Program, step: StepCursor): Json {
  const run = step.runValues;
  const number = run[RUN.tool];
  const tool = program.tool(number);
  const edge = edgeFacts(run, tool, program.kind, step.x);
  const cuts = CUTS.has(step.kind);
  const move: Json = { line: step.line + 1, kind: STEP_KINDS[step.kind] };
  if (step.file !== undefined) move.file = step.file;
  move.from = position(step.x0, step.y0, step.z0);
  move.to = position(step.x, step.y, step.z, step);
  if (step.kind === KIND.arc) {
    const plane = run[RUN.plane];
    move.centre = centre(plane, step.centre_first, step.centre_second);
    move.plane = PLANES[plane];
    move.clockwise = step.sweep_rad < 0;
    const turns = Math.ceil(Math.abs(step.sweep_rad) / (2 * Math.PI) - 1e-9);
    if (turns > 1) move.turns = turns;
  }
  if (step.length_mm >= 0 && step.kind !== KIND.home) move.length_mm = step.length_mm;
  if (cuts && Number.isFinite(edge.feed_mm_min)) move.feed_mm_min = edge.feed_mm_min;
  if (Number.isFinite(edge.spindle_rpm)) move.spindle_rpm = edge.spindle_rpm;
  if (number >= 0) move.tool = number;
  const frame = frameName(step.flags & STEP_FLAG.machine_frame ? 530 : run[RUN.frame]);
  if (frame) move.frame = frame;
  const seconds = secondsOf(program, step);
  const followed = motionTimes(program)?.seconds(step);
  if (followed !== undefined && Number.isFinite(followed)) {
    move.time_s = followed;
    move.programmed_time_s = seconds;
  } else if (Number.isFinite(seconds)) move.time_s = seconds;
  return move;
}

function secondsOf(program: Program, step: StepCursor): number {
  if (step.kind === KIND.dwell) return step.seconds;
  if (step.kind === KIND.rapid) return program.rapidSeconds(step);
  if (!CUTS.has(step.kind)) return Number.NaN;
  const run = step.runValues;
  return 60 * stepMinutes(run, step.kind, step.length_mm, step.x0, step.x, step.seconds / 60);
}

const ROTARY = ['a', 'b', 'c', 'u', 'v', 'w'] as const;

function position(x: number, y: number, z: number, rotary?: StepCursor): Json {
  const place: Json = {};
  if (Number.isFinite(x)) place.x = x;
  if (Number.isFinite(y)) place.y = y;
  if (Number.isFinite(z)) place.z = z;
  if (rotary)
    ROTARY.forEach((axis, i) => {
      if (Number.isFinite(rotary.rotary(i))) place[axis] = rotary.rotary(i);
    });
  return place;
}

function centre(plane: number, first: number, second: number): Json {
  if (plane === 18) return { z: first, x: second };
  return plane === 19 ? { y: first, z: second } : { x: first, y: second };
}
