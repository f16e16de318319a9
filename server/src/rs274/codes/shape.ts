/** Dialects by what they are; `ngc` serves mills and lathes, so the kind of machine is a separate fact. */
export const DIALECTS = ['ngc', 'iso6983', 'lathe-a', 'lathe-b', 'lathe-c'] as const;
export type Dialect = (typeof DIALECTS)[number];
export const MACHINE_KINDS = ['mill', 'lathe'] as const;
export type MachineKind = (typeof MACHINE_KINDS)[number];

/** Modal groups; the number is that of NISTIR 6556 table 4 where the report has the group. */
export const GROUPS = {
  'non-modal': 'G 0',
  motion: 'G 1',
  plane: 'G 2',
  distance: 'G 3',
  'arc-distance': 'G 4',
  'feed-mode': 'G 5',
  units: 'G 6',
  compensation: 'G 7',
  'length-offset': 'G 8',
  'stroke-check': 'G 9',
  'cycle-return': 'G 10',
  scaling: 'G 11',
  'work-offset': 'G 12',
  'path-control': 'G 13',
  'spindle-mode': 'G 14',
  'diameter-mode': 'G 15',
  rotation: 'G 16',
  polar: 'G 17',
  'modal-call': 'G 18',
  polygon: 'G 20',
  interpolation: 'G 21',
  mirror: 'G 22',
  user: 'user',
  stopping: 'M 4',
  io: 'M 5',
  'tool-change': 'M 6',
  spindle: 'M 7',
  coolant: 'M 8',
  overrides: 'M 9',
  call: 'call',
  none: 'none',
} as const;
export type Group = keyof typeof GROUPS;

/** What the executor does with a code. A key it does not know counts as `not-followed`. */
export const EFFECTS = [
  'not-followed',
  /** Accepted: nothing about path, feed, speed or tool depends on it. */
  'accepted',
  'rapid',
  'feed',
  'arc-clockwise',
  'arc-counter-clockwise',
  'dwell',
  'thread',
  'rigid-tap',
  'probe',
  'exact-stop-once',
  'set-data',
  'end-data',
  'reference',
  'second-reference',
  'store-reference',
  'store-second-reference',
  'reference-check',
  'return-from-reference',
  'machine-coordinates',
  'diameter-words',
  'radius-words',
  'plane',
  'inch',
  'millimetre',
  'absolute',
  'incremental',
  'arc-centre-absolute',
  'arc-centre-incremental',
  'inverse-time',
  'feed-per-minute',
  'feed-per-revolution',
  'surface-speed',
  'spindle-direct',
  'return-initial',
  'return-r',
  'path-control',
  'polar-on',
  'polar-off',
  'rotation-on',
  'rotation-off',
  'scaling-on',
  'scaling-off',
  'mirror-on',
  'mirror-off',
  'compensation-off',
  'compensation-left',
  'compensation-right',
  'spline',
  'spline-list',
  'spline-list-end',
  'compensation-left-given',
  'compensation-right-given',
  'length-offset',
  'length-offset-minus',
  'length-offset-words',
  'length-offset-add',
  'length-offset-off',
  'clamp-or-position',
  'set-position',
  'clear-position',
  'suspend-position',
  'restore-position',
  'local-shift',
  'work-offset',
  'extra-work-offset',
  'macro-call',
  'modal-macro-call',
  'modal-macro-off',
  'cycle-cancel',
  'drill-cycle',
  'turning-cycle',
  'thread-cycle',
  'facing-cycle',
  'finishing',
  'turning-roughing',
  'facing-roughing',
  'pattern-repeating',
  'face-peck',
  'groove',
  'multi-pass-thread',
  'stop',
  'optional-stop',
  'end',
  'pallet',
  'tool-change',
  'set-tool-number',
  'spindle-clockwise',
  'spindle-counter-clockwise',
  'spindle-stop',
  'spindle-orient',
  'spindle-clockwise-coolant',
  'spindle-counter-clockwise-coolant',
  'coolant-mist',
  'coolant-flood',
  'coolant-off',
  'rigid-tapping',
  'overrides-on',
  'overrides-locked',
  'save-state',
  'discard-state',
  'restore-state',
  'save-and-restore-state',
  'call',
  'local-call',
  'external-call',
  'return',
] as const;
export type Effect = (typeof EFFECTS)[number];

/** What a code does to the position. */
export type MotionOfCode = 'none' | 'moves' | 'unknown-position';

/** One meaning of one code in some dialects. A code with several meanings has several rows that share no dialect and kind. */
export interface CodeRow {
  letter: 'G' | 'M';
  /** 81 or 43.1. */
  number: number;
  /** Last number of a range of codes with one meaning (user codes). */
  through?: number;
  group: Group;
  modal: boolean;
  dialects: readonly Dialect[];
  /** Only on machines of this kind; absent: both. */
  kind?: MachineKind;
  /** Short name. */
  means: string;
  does: string;
  words: { required: readonly string[]; optional: readonly string[] };
  axis_words: boolean;
  motion: MotionOfCode;
  source: string;
  example: string;
  effect: Effect;
  /** For codes that are not followed: what stays unchecked because of it. */
  leaves_unchecked?: string;
}

export const ALL: readonly Dialect[] = DIALECTS;
export const NGC: readonly Dialect[] = ['ngc'];
export const ISO: readonly Dialect[] = ['iso6983'];
export const MILLS: readonly Dialect[] = ['ngc', 'iso6983'];
export const LATHES: readonly Dialect[] = ['lathe-a', 'lathe-b', 'lathe-c'];
/** Every dialect but `ngc`: controls that read word-address programs. */
export const WORD_ADDRESS: readonly Dialect[] = ['iso6983', 'lathe-a', 'lathe-b', 'lathe-c'];

export const REPORT = 'NISTIR 6556 section ';
export const PRACTICE = 'common practice, no source';

/** What a row says, in short: absent parts take the usual value (non-modal, no words, no motion). */
export interface CodeText {
  code: string;
  through?: number;
  group: Group;
  in: readonly Dialect[];
  kind?: MachineKind;
  means: string;
  does: string;
  /** Required words, blank-separated; `K|F` is either. */
  needs?: string;
  /** Optional words, blank-separated. */
  takes?: string;
  axis_words?: boolean;
  motion?: MotionOfCode;
  source?: string;
  example?: string;
  effect: Effect;
  unchecked?: string;
}

const words = (text: string | undefined): readonly string[] => (text ? text.split(' ') : []);

/** Builds one row of the table from its short text. */
export function code(text: CodeText): CodeRow {
  return {
    letter: text.code.startsWith('G') ? 'G' : 'M',
    number: Number(text.code.slice(1)),
    ...(text.through === undefined ? {} : { through: text.through }),
    group: text.group,
    modal: !['non-modal', 'none', 'call', 'user'].includes(text.group),
    dialects: text.in,
    ...(text.kind === undefined ? {} : { kind: text.kind }),
    means: text.means,
    does: text.does,
    words: { required: words(text.needs), optional: words(text.takes) },
    axis_words: text.axis_words ?? false,
    motion: text.motion ?? 'none',
    source: text.source ?? PRACTICE,
    example: text.example ?? text.code,
    effect: text.effect,
    ...(text.unchecked === undefined ? {} : { leaves_unchecked: text.unchecked }),
  };
}
