import { PLANE_AXES, pointInPlane } from '../geometry/plane.ts';
import type { CycleNotes } from './emit.ts';
import type { HoleBody, MillCycleContext, MillHoles } from './levels.ts';

/**
 * G85, G86, G88, G89: feed to the bottom, then out by feed (G85, G89 with dwell), by rapid with the spindle stopped (G86)
 * or by hand (G88). By the report the feed goes out to clear; elsewhere to R, then rapid to clear.
 * Source: NISTIR 6556 section 3.5.16.5, .6, .8 and .9 (from memory).
 */
export const boreBody: HoleBody = (hole, levels, context, writer, notes) => {
  const at = (normal: number) => pointInPlane(context.plane, hole.first, hole.second, normal);
  const { code, p_seconds } = levels.state;
  writer.feed(at(levels.bottom));
  if (code !== 850) writer.dwell(p_seconds);
  if (code === 860) {
    writer.spindle('stop');
    writer.rapid(at(levels.clear));
    writer.spindle('start');
  } else if (code === 880) {
    writer.spindle('stop');
    writer.stop();
    notes.assume('manual-retract', 'the operator is taken to retract to the level where the hole ends');
    writer.rapid(at(levels.clear));
    writer.spindle('start');
  } else {
    writer.feed(at(context.rules === 'report' ? levels.clear : levels.r_level));
    writer.rapid(at(levels.clear));
  }
};

/**
 * G76: feed to the bottom, dwell P, orient, shift Q (or I J) off the wall, rapid to clear, shift back, spindle on.
 * Common practice, no source; the direction of the shift is a parameter of the control.
 */
export const fineBoreBody: HoleBody = (hole, levels, context, writer, notes) => {
  const at = (normal: number) => pointInPlane(context.plane, hole.first, hole.second, normal);
  const shift = shiftOf(levels, context, notes);
  const aside = (normal: number) =>
    pointInPlane(context.plane, hole.first + shift.first, hole.second + shift.second, normal);
  writer.feed(at(levels.bottom));
  writer.dwell(levels.state.p_seconds);
  writer.spindle('orient');
  writer.rapid(aside(levels.bottom));
  writer.rapid(aside(levels.clear));
  writer.rapid(at(levels.clear));
  writer.spindle('start');
};

/**
 * G87 with I J K: orient, rapid aside by I J, rapid to the bottom, rapid back to the middle of the hole, spindle on,
 * feed up to K, feed back down, orient, aside, rapid out, back. K is a position, in G91 a distance from the bottom.
 * Without K: R is the level below the part and Z the level to cut up to; the tool always leaves to the initial level.
 * Source: NISTIR 6556 section 3.5.16.7 (from memory); the form without K: common practice, no source.
 */
export const backBoreBody: HoleBody = (hole, levels, context, writer, notes) => {
  const at = (normal: number) => pointInPlane(context.plane, hole.first, hole.second, normal);
  const shift = shiftOf(levels, context, notes);
  const aside = (normal: number) =>
    pointInPlane(context.plane, hole.first + shift.first, hole.second + shift.second, normal);
  const spare_axis = backBoreLetter(context);
  const written = levels.state[spare_axis];
  const by_levels = Number.isNaN(written);
  const low = by_levels ? levels.r_level : levels.bottom;
  const high = by_levels
    ? levels.bottom
    : written + (context.incremental ? levels.bottom : (context.zero ?? 0));
  const out = by_levels ? levels.state.initial_level : levels.clear;

  writer.spindle('orient');
  writer.rapid(aside(writer.position[PLANE_AXES[context.plane].normal]));
  writer.rapid(aside(low));
  writer.rapid(at(low));
  writer.spindle('start');
  writer.feed(at(high));
  writer.dwell(levels.state.p_seconds);
  if (!by_levels) writer.feed(at(low));
  writer.spindle('orient');
  writer.rapid(aside(by_levels ? high : low));
  writer.rapid(aside(out));
  writer.rapid(at(out));
  writer.spindle('start');
};

const CENTRE_LETTER = { x: 'i', y: 'j', z: 'k' } as const;

/** The letter that belongs to the tool axis: K in XY, J in ZX, I in YZ. */
function backBoreLetter(context: MillCycleContext): 'i' | 'j' | 'k' {
  return CENTRE_LETTER[PLANE_AXES[context.plane].normal];
}

function shiftOf(
  levels: MillHoles,
  context: MillCycleContext,
  notes: CycleNotes,
): { readonly first: number; readonly second: number } {
  const axes = PLANE_AXES[context.plane];
  const first = levels.state[CENTRE_LETTER[axes.first]];
  const second = levels.state[CENTRE_LETTER[axes.second]];
  if (!Number.isNaN(first) || !Number.isNaN(second)) return { first: first || 0, second: second || 0 };
  notes.assume('bore-shift', `the shift off the wall is taken along +${axes.first.toUpperCase()}`);
  return { first: Math.abs(levels.state.q) || 0, second: 0 };
}
