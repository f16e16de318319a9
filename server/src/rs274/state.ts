import { RUN, RUN_WIDTH } from './steps.ts';
import type { ToolOffsets } from './tool-offsets.ts';

/**
 * Columns of the machine state, all numbers; NaN is 'not known' or 'never stated'. Lengths in mm, lathe X as radius,
 * angles in degrees. Nothing here grows with the program: equal states read the rest of a program alike.
 */
export const STATE_FIELDS = [
  // Position in the active work offset, shifts of G52 and G92 added.
  'x',
  'y',
  'z',
  'a',
  'b',
  'c',
  'u',
  'v',
  'w',
  // Modal state, as in the columns of a run (steps.ts).
  'tool',
  'prepared_tool',
  'length_offset',
  'radius_offset',
  'spindle',
  'css',
  'clamp_rpm',
  'direction',
  'feed',
  'feed_mode',
  'plane',
  'inch',
  'coolant',
  'frame',
  'compensation',
  'distance',
  'motion',
  'return_level',
  'diameter',
  'path_mode',
  /** 1: I J K are positions of the centre (G90.1). */
  'arc_absolute',
  /** Spindle number of G96 and of G97 apart: what S means when the mode changes. */
  'rigid_tapping',
  'overrides_locked',
  // Shift of G52 and of G92 (or G50 on code system A), with the one that G92.2 suspends.
  'local_x',
  'local_y',
  'local_z',
  'set_x',
  'set_y',
  'set_z',
  'kept_x',
  'kept_y',
  'kept_z',
  // Work offsets G54 to G59.3 where the program sets them by G10.
  'o1x',
  'o1y',
  'o1z',
  'o2x',
  'o2y',
  'o2z',
  'o3x',
  'o3y',
  'o3z',
  'o4x',
  'o4y',
  'o4z',
  'o5x',
  'o5y',
  'o5z',
  'o6x',
  'o6y',
  'o6z',
  'o7x',
  'o7y',
  'o7z',
  'o8x',
  'o8y',
  'o8z',
  'o9x',
  'o9y',
  'o9z',
  // Machine position of the last G28 intermediate point is not kept: only where G29 passes through.
  'via_x',
  'via_y',
  'via_z',
  // Coordinate changes: rotation, scaling, mirror, polar words.
  'turned',
  'turn_first',
  'turn_second',
  'turn_deg',
  'scaled',
  'scale_cx',
  'scale_cy',
  'scale_cz',
  'scale_x',
  'scale_y',
  'scale_z',
  'mirror_x',
  'mirror_y',
  'mirror_z',
  'polar',
  // Mill cycle in force (cycles/levels.ts).
  'cycle',
  'cycle_level',
  'cycle_r',
  'cycle_depth',
  'cycle_p',
  'cycle_q',
  'cycle_i',
  'cycle_j',
  'cycle_k',
  // Simple lathe cycle in force and the first blocks of two-block cycles.
  'simple_x',
  'simple_z',
  'simple_r',
  'simple_start_x',
  'simple_start_z',
  'first_code',
  'first_u',
  'first_w',
  'first_r',
  'first_p',
  'first_q',
  /** N of the last block of a profile that the main flow jumps over. */
  'skip_until_n',
  /** 0 running, 1 after the end of the program, 2 after its closing %. */
  'ended',
  /** 1 once a block of the program has been read (a % after that is the closing one). */
  'begun',
  /** Radius that the path is offset by, mm; NaN when compensation is not modelled. */
  'comp_radius',
  /** Tip direction of the lathe tool whose nose is compensated (compensation/nose.ts); NaN without. */
  'comp_tip',
  /** Frame is turned or switched by something that is not followed: positions stay unknown. */
  'lost',
  /** Direction in which a cubic spline ended, mm: the first control point of the next one; NaN without. */
  'spline_i',
  'spline_j',
  /** Angle that a work offset is turned by about Z (G10 L2 R), degrees. */
  'o1r',
  'o2r',
  'o3r',
  'o4r',
  'o5r',
  'o6r',
  'o7r',
  'o8r',
  'o9r',
  // Reference points that the program stored (G28.1, G30.1): position, the work offset that it counts in (530: machine
  // coordinates) and the length offset that was on.
  'ref1_x',
  'ref1_y',
  'ref1_z',
  'ref1_frame',
  'ref1_length',
  'ref2_x',
  'ref2_y',
  'ref2_z',
  'ref2_frame',
  'ref2_length',
  /** Motion code in force before the cycle (G80 brings it back on word-address controls). */
  'motion_before',
  /** 1 once it was said that no motion code is in force. */
  'motion_told',
  // Tool length offset in force as far as the program tells it (only in the report's successor it moves positions).
  'tlo_x',
  'tlo_y',
  'tlo_z',
] as const;
export type StateField = (typeof STATE_FIELDS)[number];

/** Index of a state column. */
export const S = Object.fromEntries(STATE_FIELDS.map((name, index) => [name, index])) as {
  readonly [K in StateField]: number;
};
const WIDTH = STATE_FIELDS.length;

/**
 * Look-ahead that waits for the blocks to come (cutter compensation, corner words): never changed, replaced. While there is
 * one, x y z of the state are where the tool centre stands, and x y z here the programmed point.
 */
export interface Pending {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Equal keys are equal look-aheads. */
  readonly key: string;
  /** The same with its lines counted from `lines` further down. */
  movedUp(lines: number): Pending;
}

/** The state of the machine between two blocks. */
export class MachineState {
  constructor(
    readonly v: Float64Array = new Float64Array(WIDTH),
    /** Moves that wait for the next blocks; null when there are none. */
    public pending: Pending | null = null,
    /** Radii and tip directions that the program wrote (G10); null when it wrote none. */
    public offsets: ToolOffsets | null = null,
  ) {}

  clone(): MachineState {
    return new MachineState(this.v.slice(), this.pending, this.offsets);
  }

  equals(other: MachineState): boolean {
    if (this === other) return true;
    const a = this.v;
    const b = other.v;
    for (let i = 0; i < WIDTH; i += 1) {
      const left = a[i];
      const right = b[i];
      if (left !== right && !(Number.isNaN(left) && Number.isNaN(right))) return false;
    }
    return same(this.pending, other.pending) && same(this.offsets, other.offsets);
  }

  copyFrom(other: MachineState): void {
    this.v.set(other.v);
    this.pending = other.pending;
    this.offsets = other.offsets;
  }

  get(field: StateField): number {
    return this.v[S[field]];
  }

  set(field: StateField, value: number): void {
    this.v[S[field]] = value;
  }
}

function same(one: { readonly key: string } | null, two: { readonly key: string } | null): boolean {
  return one === two || (one !== null && two !== null && one.key === two.key);
}

/** What a state starts from: everything that depends on machine and dialect. */
export interface StartState {
  inch: boolean;
  diameter: boolean;
  plane: 17 | 18 | 19;
  feed_mode: 93 | 94 | 95;
}

/** The state at the start of a program: positions, tool, feed and speed are not known. */
export function startState(start: StartState): MachineState {
  const state = new MachineState();
  const v = state.v;
  v.fill(Number.NaN, S.x, S.w + 1);
  v.fill(Number.NaN, S.tool, S.spindle + 1);
  v[S.clamp_rpm] = Number.NaN;
  v[S.direction] = Number.NaN;
  v[S.feed] = Number.NaN;
  v[S.feed_mode] = start.feed_mode;
  v[S.plane] = start.plane;
  v[S.inch] = start.inch ? 1 : 0;
  v[S.frame] = Number.NaN;
  v[S.compensation] = 40;
  v[S.distance] = 90;
  v[S.motion] = Number.NaN;
  v[S.return_level] = 98;
  v[S.diameter] = start.diameter ? 1 : 0;
  v[S.path_mode] = Number.NaN;
  v.fill(Number.NaN, S.o1x, S.via_z + 1);
  v.fill(Number.NaN, S.mirror_x, S.mirror_z + 1);
  v.fill(1, S.scale_x, S.scale_z + 1);
  v.fill(Number.NaN, S.cycle, S.skip_until_n + 1);
  v[S.comp_radius] = Number.NaN;
  v[S.comp_tip] = Number.NaN;
  v.fill(Number.NaN, S.ref1_x, S.ref2_length + 1);
  v.fill(Number.NaN, S.spline_i, S.spline_j + 1);
  v[S.motion_before] = Number.NaN;
  return state;
}

const RUN_SOURCES: readonly (readonly [run: number, state: number])[] = (
  [
    'tool',
    'prepared_tool',
    'length_offset',
    'radius_offset',
    'spindle',
    'css',
    'clamp_rpm',
    'direction',
    'feed',
    'feed_mode',
    'plane',
    'inch',
    'coolant',
    'frame',
    'compensation',
    'distance',
    'motion',
    'return_level',
    'diameter',
    'path_mode',
  ] as const
).map(name => [RUN[name], S[name]] as const);

/** Writes the run columns of a state into `row`; lead is NaN. */
export function writeRun(v: Float64Array, row: Float64Array): Float64Array {
  // The first run columns and state columns stand in the same order.
  for (let i = 0; i < RUN_SOURCES.length; i += 1) row[i] = v[S.tool + i];
  row[RUN.lead] = Number.NaN;
  return row;
}

for (const [index, [run, state]] of RUN_SOURCES.entries()) {
  if (run !== index || state !== S.tool + index || RUN_SOURCES.length !== RUN_WIDTH - 1) {
    throw new Error('columns of runs and of the state must stand in the same order');
  }
}
