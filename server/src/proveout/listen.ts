import { isAbsent } from '../cutting/result.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { effectiveTeeth, isMillingCutter } from '../review/working.ts';
import type { ToolKind } from '../setup/index.ts';

/** What a tool should sound like, and what to change when it does not. Common practice, no source. */
export interface Listening {
  sounds: string;
  /** Teeth passing a second; undefined when teeth or speed are not known, or one edge cuts all the time. */
  tooth_pass_hz: number | undefined;
  /** What to do on a high squeal; undefined where nothing may be overridden. */
  squeal: Squeal | undefined;
}

export interface Squeal {
  percent: number;
  /** The spindle speed that this percentage is; undefined under constant surface speed. */
  spindle_rpm: number | undefined;
  /** Feed in mm/rev follows the spindle by itself. */
  feed_follows: boolean;
}

const MILLING = 'an even hum, the same going in and coming out; chips of one size';
const TURNING = 'a steady hiss without a whistle; chips that break';

const SOUNDS: Partial<Record<ToolKind, string>> = {
  'face-mill': 'an even beat of the teeth, as loud going in as coming out',
  'ball-mill': 'a light even hum, brighter up the walls than on the floor',
  'chamfer-mill': 'a light even hiss; a burr means dull or too fast',
  'thread-mill': 'a light even hum all around the thread',
  drill: 'a low even drone; chips that come up and break; a groan is a packed flute',
  'spot-drill': 'a short soft cut, no chirp',
  'center-drill': 'a short soft cut, no chirp',
  reamer: 'nearly nothing; a chirp leaves marks',
  tap: 'nearly nothing, then the reversal; a groan or a snap: stop before the next hole',
  bore: 'a steady hiss; a whine is the bar ringing',
  'bore-bar': 'a steady hiss; a whine is the bar ringing',
  turn: TURNING,
  groove: 'a steady hiss; the chip comes out of the groove',
  'part-off': 'a steady hiss, lower toward the centre; the chip comes out of the groove',
  'thread-turn': 'short even strokes, each alike; deeper passes a little louder',
};

/** The share of the programmed spindle speed that a squeal is first answered with, percent. */
const DOWN = 90;
const LEAST = 60;

/** What to listen for with a tool. Overrides are never named for tapping and threading. */
export function listeningOf(
  used: ToolReview,
  kind: 'mill' | 'lathe' | undefined,
  css: boolean,
  per_rev: boolean,
): Listening {
  const tool = used.tool?.kind?.value;
  const sounds = (tool && SOUNDS[tool]) ?? (kind === 'lathe' && !isMillingCutter(tool) ? TURNING : MILLING);
  const teeth = effectiveTeeth(used.tool);
  const rpm = used.main?.spindle_rpm ?? Number.NaN;
  const beats = teeth !== undefined && isMillingCutter(tool) && Number.isFinite(rpm);
  return {
    sounds,
    tooth_pass_hz: beats ? (rpm * teeth) / 60 : undefined,
    squeal: isLocked(used) ? undefined : squealOf(used, rpm, css, per_rev),
  };
}

/** True for tools whose feed is tied to the spindle. */
export function isLocked(used: ToolReview): boolean {
  const kind = used.tool?.kind?.value;
  if (kind === 'tap' || kind === 'thread-turn') return true;
  const parts = used.uses.flatMap(use => use.parts).filter(part => part.cut_steps > 0);
  return parts.length > 0 && parts.every(part => part.kinds & LOCKED);
}

/** Kinds of steps: thread and tap. */
const LOCKED = (1 << 3) | (1 << 4);

/** Over the window: down to its high end; else down by a tenth. */
function squealOf(used: ToolReview, rpm: number, css: boolean, per_rev: boolean): Squeal {
  const range = used.window?.surface_speed_m_min;
  const speed = used.surface_speed_m_min?.[1];
  const over = range && !isAbsent(range) && speed !== undefined && speed > range.high;
  const wanted = over ? Math.floor((20 * range.high) / speed) * 5 : DOWN;
  const percent = Math.max(LEAST, Math.min(DOWN, wanted));
  const named = Number.isFinite(rpm) && !css ? Math.round((rpm * percent) / 1000) * 10 : undefined;
  return { percent, spindle_rpm: named, feed_follows: per_rev };
}
