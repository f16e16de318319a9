/**
 * The table of executed moves of one stretch of a program, in typed columns.
 *
 * A step is one move the control makes; the start of a step is the end of the step before it. State that
 * rarely changes (tool, spindle, feed, plane, offsets ...) lives in runs: a step names its run by index.
 * Positions are mm in the work offset that is active, lathe X as radius; NaN is 'not known' and never leaves
 * the review. Lines are 0-based and relative to the first line of the stretch.
 */

export const STEP_KINDS = [
  'rapid',
  'feed',
  'arc',
  'thread',
  'tap',
  'dwell',
  'home',
  'probe',
  'toolchange',
  'stop',
  'end',
  /** No motion: the known position changes (frame change, offset change, something not followed). */
  'place',
] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export const KIND = Object.fromEntries(STEP_KINDS.map((name, index) => [name, index])) as {
  readonly [K in StepKind]: number;
};

/** Flags of a step (bit set). */
export const STEP_FLAG = {
  /** Made by a canned or multi-pass cycle. */
  cycle: 1,
  /** Path of the compensated tool centre. */
  compensated: 2,
  /** A corner that compensation put in. */
  corner: 4,
  /** Stands in a block with block delete. */
  optional: 8,
  /** Rapid-like positioning that the control makes at rapid inside a cycle. */
  machine_frame: 16,
  /** Feed is not the programmed one (spindle-locked or peck re-entry). */
  locked: 32,
} as const;

/**
 * Columns of a run. Unknown is NaN. Feed is mm/min (mode 94), mm/rev (95) or 1/min (93); spindle is rev/min,
 * or m/min when `css` is 1; clamp is rev/min.
 */
export const RUN_FIELDS = [
  'tool',
  'prepared_tool',
  'length_offset',
  'radius_offset',
  'spindle',
  'css',
  'clamp_rpm',
  /** 1 clockwise (M3), -1 counter-clockwise (M4), 0 stopped (M5), NaN never commanded. */
  'direction',
  'feed',
  'feed_mode',
  /** 17, 18 or 19. */
  'plane',
  /** 1 inch, 0 mm: how the program's numbers were read here. */
  'inch',
  /** Bit 1 mist (M7), bit 2 flood (M8), bit 4 through the tool; 0 off. */
  'coolant',
  /** Work offset times ten: 540 for G54, 591 for G59.1, 54101 for G54.1 P1; 530 machine; NaN never stated. */
  'frame',
  /** 40, 41 or 42. */
  'compensation',
  /** 90 or 91. */
  'distance',
  /** Number of the motion or cycle code in force times ten: 0 G0, 10 G1, 830 G83. NaN none. */
  'motion',
  /** 98 or 99. */
  'return_level',
  /** 1 when lathe X is written as diameter. */
  'diameter',
  /** 610, 611 or 640 (exact path, exact stop, continuous), NaN not stated. */
  'path_mode',
  /** Lead of a thread or tap in mm when the step is one, else NaN. */
  'lead',
] as const;
export type RunField = (typeof RUN_FIELDS)[number];
export const RUN = Object.fromEntries(RUN_FIELDS.map((name, index) => [name, index])) as {
  readonly [K in RunField]: number;
};
export const RUN_WIDTH = RUN_FIELDS.length;

/** Columns of an arc: centre in the plane's first and second axis [mm], sweep [rad, counter-clockwise positive about the plane's normal]. */
export const ARC_WIDTH = 3;
/** Columns of a rotary or secondary-axis end point: A B C [degree], U V W [mm]. */
export const ROTARY_WIDTH = 6;

/** Columns of lines, runs and rows: as narrow as their numbers let them be. */
export type Column = Int32Array | Int16Array | Uint8Array;

/** Executed moves in columns, as they are read: recorded (step-recorder.ts) or put away (packed-steps.ts). */
export interface StepTable {
  readonly count: number;
  readonly line: Column;
  readonly kind: Uint8Array;
  readonly flags: Uint8Array;
  readonly run: Column;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /**
   * Row of `arcs` for an arc; for a home step the axes that go home (bit 1 X, 2 Y, 4 Z, 8 A, 16 B, 32 C); else -1. Empty
   * in a packed table without either.
   */
  readonly aux: Column;
  /** Row of `rotaries`, where there is a rotary word. */
  readonly rotary: Column | null;
  readonly runCount: number;
  readonly runs: Float64Array;
  readonly arcCount: number;
  readonly arcs: Float64Array;
  readonly rotaryCount: number;
  readonly rotaries: Float64Array;
  /** Seconds of dwell steps and 1/F minutes of inverse-time steps, by step index. */
  readonly seconds: ReadonlyMap<number, number>;
  /** Work files of steps that are not of the program itself: step index where it starts -> file name. */
  readonly files: ReadonlyMap<number, string>;
}
