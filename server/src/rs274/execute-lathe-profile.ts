import { type Block, L } from './block.ts';
import { BlockReader } from './block-reader.ts';
import type { Effect } from './codes/shape.ts';
import type { CycleResult } from './cycles/emit.ts';
import { expandLatheFinish, expandLathePattern } from './cycles/lathe-finish.ts';
import { expandLatheRough } from './cycles/lathe-rough.ts';
import { roughForm } from './cycles/lathe-words.ts';
import type { Profile, ProfileSegment } from './cycles/profile.ts';
import { closePath } from './execute-compensation.ts';
import { readOffset } from './execute-compensation-mode.ts';
import { cycleLength, length, lettersOf } from './execute-lathe-point.ts';
import type { Point } from './geometry/plane.ts';
import { Machine } from './machine.ts';
import { MachineSink, report, type SegmentData } from './machine-sink.ts';
import { S } from './state.ts';
import { ARC_WIDTH, KIND, RUN, RUN_WIDTH, STEP_FLAG, type StepTable } from './steps.ts';

const FIRST: Partial<Record<Effect, number>> = {
  'turning-roughing': 71,
  'facing-roughing': 72,
  'pattern-repeating': 73,
};

/** G70 to G73 of the lathe code systems: finishing, roughing and pattern repeating along a profile N P to N Q. */
export function executeProfileCycle(machine: Machine, block: Block, effect: Effect): void {
  const { v } = machine.state;
  const code = FIRST[effect];
  const form = code === undefined ? 'one-block' : roughForm(lettersOf(block), v[S.first_code] === code);
  if (form === 'first-block') {
    v[S.first_code] = code ?? Number.NaN;
    v[S.first_u] = length(machine, block, L.U);
    v[S.first_w] = length(machine, block, L.W);
    v[S.first_r] = effect === 'pattern-repeating' ? block.number(L.R) : length(machine, block, L.R);
    return;
  }
  const found = readProfile(machine, block, effect !== 'finishing');
  if (found === undefined) {
    machine.problem(
      'cycle-profile-missing',
      0,
      block.length,
      'there are no blocks N P to N Q for this cycle',
    );
    machine.forget(5);
    return;
  }
  const position: Point = { x: v[S.x], y: v[S.y], z: v[S.z] };
  const result =
    effect === 'finishing'
      ? expandLatheFinish(found.profile, position, new MachineSink(machine, found.data))
      : rough(machine, block, effect, form === 'second-block', found, position);
  report(machine, block, result);
  if (!result.expanded) machine.forget(5);
  if (effect === 'finishing') {
    v[S.feed] = found.feed;
    v[S.spindle] = found.spindle;
    v[S.compensation] = found.compensation;
    if (v[S.compensation] !== 40) readOffset(machine);
  }
  if (found.ahead) v[S.skip_until_n] = block.number(L.Q);
}

function or(value: number, other: number): number {
  return Number.isNaN(value) ? other : value;
}

function rough(
  machine: Machine,
  block: Block,
  effect: Effect,
  two: boolean,
  found: FoundProfile,
  position: Point,
): CycleResult {
  const { v } = machine.state;
  const allowance_x = block.has(L.U) ? machine.lengthAlongX(block, block.index(L.U)) : 0;
  const allowance_z = or(length(machine, block, L.W), 0);
  const sink = new MachineSink(machine);
  const { profile } = found;
  if (effect === 'pattern-repeating') {
    const shift_x = two ? or(v[S.first_u], 0) : or(length(machine, block, L.I), 0);
    const shift_z = two ? or(v[S.first_w], 0) : or(length(machine, block, L.K), 0);
    const passes = two ? or(v[S.first_r], 1) : or(block.number(L.D), 1);
    return expandLathePattern(
      { profile, shift_x, shift_z, passes, allowance_x, allowance_z },
      position,
      sink,
    );
  }
  const face = effect === 'facing-roughing';
  const first = face ? v[S.first_w] : v[S.first_u];
  const depth = two ? first : cycleLength(machine, block, L.D);
  return expandLatheRough(
    {
      direction: face ? 'face' : 'turn',
      profile,
      depth_mm: Math.abs(or(depth, 0)),
      retract_mm: Math.abs(two ? or(v[S.first_r], 0) : 0),
      allowance_x,
      allowance_z,
      pockets: found.pockets,
    },
    position,
    sink,
  );
}

interface FoundProfile {
  profile: Profile;
  data: SegmentData[];
  /** Feed, speed and compensation after the last block. */
  feed: number;
  spindle: number;
  compensation: number;
  /** The first block moves X and Z: the profile may have pockets (type II). */
  pockets: boolean;
  /** The profile stands below: the main flow jumps over it. */
  ahead: boolean;
}

/**
 * Executes the blocks of a profile on a machine of their own and takes the moves: with nose radius compensation for
 * finishing, without for roughing and pattern repeating (common practice, no source).
 */
function readProfile(machine: Machine, block: Block, tell: boolean): FoundProfile | undefined {
  const [p, q] = [block.number(L.P), block.number(L.Q)];
  machine.looks_ahead = true;
  const found = machine.profiles?.lines(p, q);
  if (found === undefined || found.lines.length === 0) return undefined;
  const inner = new Machine(machine.settings, machine.state.clone());
  inner.state.v[S.motion] = Number.NaN;
  inner.state.v[S.skip_until_n] = Number.NaN;
  if (tell) {
    inner.ignores_compensation = true;
    inner.state.v[S.comp_radius] = Number.NaN;
  }
  const runner = machine.runner?.(inner);
  if (runner === undefined) return undefined;
  const reader = new BlockReader({ semicolon_ends_block: false, report_rules: false });
  reader.values = machine.values;
  let pockets = false;
  for (const [index, line] of found.lines.entries()) {
    inner.line = machine.line + line.line;
    reader.problems = inner.problems;
    const read = reader.read(line.bytes, line.start, line.end, inner.line);
    if (index === 0) pockets = (read.has(L.X) || read.has(L.U)) && (read.has(L.Z) || read.has(L.W));
    runner.execute(read);
  }
  if (!tell) closePath(inner);
  for (const problem of inner.problems)
    if (tell ? found.ahead : problem.code.startsWith('comp-')) machine.problems.push(problem);
  if (inner.needs_flow) machine.needs_flow = true;
  const { v } = inner.state;
  const start = machine.state.v;
  return {
    ...segmentsOf({ x: start[S.x], y: start[S.y], z: start[S.z] }, inner.table),
    feed: v[S.feed],
    spindle: v[S.spindle],
    compensation: v[S.compensation],
    pockets,
    ahead: found.ahead,
  };
}

/** The moves of a step table as a profile that is approached from `start`, with feed and speed of each. */
export function segmentsOf(start: Point, table: StepTable): { profile: Profile; data: SegmentData[] } {
  const segments: ProfileSegment[] = [];
  const data: SegmentData[] = [];
  for (let at = 0; at < table.count; at += 1) {
    const kind = table.kind[at];
    if (kind !== KIND.rapid && kind !== KIND.feed && kind !== KIND.arc) continue;
    const to: Point = { x: table.x[at], y: table.y[at], z: table.z[at] };
    const run = table.run[at] * RUN_WIDTH;
    data.push({
      feed: table.runs[run + RUN.feed],
      spindle: table.runs[run + RUN.spindle],
      flags: table.flags[at] & (STEP_FLAG.compensated | STEP_FLAG.corner),
    });
    if (kind !== KIND.arc) {
      segments.push({ kind: kind === KIND.rapid ? 'rapid' : 'line', to });
      continue;
    }
    const arc = table.aux[at] * ARC_WIDTH;
    const [centre_first, centre_second, sweep_rad] = table.arcs.subarray(arc, arc + ARC_WIDTH);
    segments.push({ kind: 'arc', to, turn: { plane: 'zx', centre_first, centre_second, sweep_rad } });
  }
  return { profile: { start, segments }, data };
}
