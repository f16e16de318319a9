import { S } from '../state.ts';
import type { Frame } from './frame.ts';
import type { FlowRun } from './run.ts';

export const SAVED_CODES = [
  'save-state',
  'discard-state',
  'restore-state',
  'save-and-restore-state',
] as const;
export type SavedCode = (typeof SAVED_CODES)[number];

/** What M70 saves: every mode but the motion mode, and no position (the report's successor, from memory). */
const MODES = [
  'inch',
  'plane',
  'compensation',
  'radius_offset',
  'distance',
  'feed_mode',
  'feed',
  'frame',
  'length_offset',
  'return_level',
  'css',
  'spindle',
  'direction',
  'arc_absolute',
  'diameter',
  'path_mode',
  'coolant',
  'overrides_locked',
] as const;

/** M70 saves the modes of this call level, M71 forgets them, M72 restores them, M73 saves and restores them at the return. */
export function savedModes(run: FlowRun, code: SavedCode): void {
  const { frame } = run;
  const { v } = run.machine.state;
  if (code === 'discard-state') frame.saved = undefined;
  else if (code === 'restore-state') restoreModes(run, frame);
  else
    frame.saved = {
      modes: Float64Array.from(MODES, mode => v[S[mode]]),
      on_return: code === 'save-and-restore-state',
    };
}

/** Puts the saved modes of a level back. Another work offset makes the position unknown. */
export function restoreModes(run: FlowRun, { saved }: Frame): void {
  if (saved === undefined) {
    run.report('modes-not-saved', 0, 0, 'There are no saved modes to restore.');
    return;
  }
  const { v } = run.machine.state;
  const frame = v[S.frame];
  MODES.forEach((mode, at) => {
    v[S[mode]] = saved.modes[at];
  });
  if (!Object.is(frame, v[S.frame])) run.lose();
}
