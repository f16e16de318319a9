import type { CodeRow } from '../rs274/index.ts';
import { LETTERS } from '../rs274/index.ts';

type Roles = Readonly<Record<string, string>>;

const DRILLING: Roles = {
  X: 'hole along X',
  Y: 'hole along Y',
  Z: 'bottom of the hole',
  R: 'R level, where the feed begins',
  Q: 'depth of a peck',
  P: 'dwell at the bottom',
  L: 'repeats',
  K: 'repeats on some controls',
  F: 'feed',
  D: 'gap left above the last peck',
  I: 'first peck, or shift along X',
  J: 'less each peck, or shift along Y',
};
const BORING: Roles = { ...DRILLING, Q: 'shift off the wall', I: 'shift along X', J: 'shift along Y' };
const PROFILE: Roles = {
  P: 'first block of the profile',
  Q: 'last block of the profile',
  U: 'first block: depth of a pass (radius); second: stock on X (diameter)',
  W: 'stock on Z',
  R: 'retract, or number of passes',
  D: 'depth of a pass in the one-block form',
  F: 'feed',
  S: 'speed',
  T: 'tool',
};
const SIMPLE: Roles = {
  X: 'end diameter',
  Z: 'end along Z',
  U: 'distance along X (diameter)',
  W: 'distance along Z',
  R: 'taper as a radius',
  F: 'feed',
};
const THREAD: Roles = {
  X: 'end diameter',
  Z: 'end along Z',
  P: 'passes, chamfer and angle in the first block; thread height in the second',
  Q: 'least depth in the first block; first depth in the second',
  R: 'finish allowance in the first block; taper in the second',
  K: 'thread height in the one-block form',
  D: 'first depth in the one-block form',
  A: 'angle of the tool',
  F: 'lead',
};
const THREAD_NGC: Roles = {
  P: 'pitch',
  Z: 'end along Z',
  I: 'thread peak from the drive line, negative outside',
  J: 'depth of the first pass',
  K: 'full depth',
  R: 'how fast the depth falls: 1 equal, 2 equal area',
  Q: 'slide angle',
  H: 'spring passes',
  E: 'taper length',
  L: 'which ends taper',
};
const PECK_LATHE: Roles = {
  X: 'end along X',
  Z: 'end along Z',
  P: 'step along X (radius)',
  Q: 'step along Z',
  R: 'retract',
  F: 'feed',
};

/** What the words of a code mean in its block; letters without a role of their own keep their usual meaning. */
export function rolesOf(row: CodeRow): Roles {
  switch (row.effect) {
    case 'drill-cycle':
      return row.number === 76 || row.number === 87 ? BORING : DRILLING;
    case 'finishing':
    case 'turning-roughing':
    case 'facing-roughing':
    case 'pattern-repeating':
      return row.dialects.includes('ngc')
        ? { Q: 'subroutine of the profile', D: 'distance left', I: 'depth of a pass', R: 'retract' }
        : PROFILE;
    case 'turning-cycle':
    case 'facing-cycle':
      return SIMPLE;
    case 'thread-cycle':
      return { ...SIMPLE, F: 'lead' };
    case 'multi-pass-thread':
      return row.dialects.includes('ngc') ? THREAD_NGC : THREAD;
    case 'face-peck':
    case 'groove':
      return PECK_LATHE;
    case 'dwell':
      return { P: 'time', X: 'time in seconds', U: 'time in seconds' };
    case 'arc-clockwise':
    case 'arc-counter-clockwise':
      return {
        I: 'centre along X',
        J: 'centre along Y',
        K: 'centre along Z',
        R: 'radius, negative for the longer arc',
        P: 'turns',
      };
    case 'length-offset':
      return { H: 'number of the length offset' };
    case 'compensation-left':
    case 'compensation-right':
      return { D: 'number of the radius offset' };
    case 'call':
    case 'macro-call':
    case 'modal-macro-call':
    case 'external-call':
      return { P: 'program', L: 'repeats', Q: 'block to start at' };
    case 'local-call':
      return { P: 'block number', L: 'repeats' };
    case 'extra-work-offset':
      return { P: 'number of the work offset' };
    default:
      return {};
  }
}

/** Meaning of a letter in a block with this code, on this kind of machine. */
export function roleOf(letter: string, row: CodeRow | undefined, lathe: boolean): string {
  const own = row === undefined ? undefined : rolesOf(row)[letter];
  if (own !== undefined) return own;
  const usual = LETTERS[letter];
  if (usual === undefined) return '';
  return (lathe ? usual.lathe : undefined) ?? usual.means;
}
