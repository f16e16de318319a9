import { type Block, L } from './block.ts';
import type { CodeRow } from './codes/shape.ts';
import { expandLatheFinish } from './cycles/lathe-finish.ts';
import { expandLatheRough } from './cycles/lathe-rough.ts';
import { offsetProfile } from './cycles/offset-profile.ts';
import { segmentsOf } from './execute-lathe-profile.ts';
import type { Machine } from './machine.ts';
import { MachineSink, report } from './machine-sink.ts';
import type { ProfileRequest } from './profile-request.ts';
import { S } from './state.ts';
import { KIND, type StepTable } from './steps.ts';
import { AXIS, readTarget, Target } from './targets.ts';

/** Passes that G70 may make. */
const MOST_PASSES = 1000;
/** Depth of a cut and retract where the block has no I and R, in units of the program (from memory). */
const USUAL_DEPTH = 1;
const USUAL_RETRACT = 0.5;

const target = new Target();

/**
 * Takes down a G70 to G72.2 with its profile in subroutine Q; the run with control flow executes the subroutine and then
 * calls `expandRequest`.
 */
export function requestProfile(machine: Machine, block: Block, row: CodeRow): void {
  if (machine.values === null) {
    machine.needs_flow = true;
    return;
  }
  const { v } = machine.state;
  readTarget(machine, block, target);
  const length = (letter: number): number => {
    const at = block.index(letter);
    return at < 0 ? Number.NaN : Math.abs(machine.length(block, at));
  };
  machine.profile_request = {
    finishing: row.effect === 'finishing',
    face: row.effect === 'facing-roughing',
    pockets: !Number.isInteger(row.number),
    sub: String(Math.round(block.number(L.Q))),
    x: (target.named & AXIS.x) !== 0 ? target.x : v[S.x],
    z: (target.named & AXIS.z) !== 0 ? target.z : v[S.z],
    d: length(L.D),
    e: length(L.E),
    i: length(L.I),
    r: length(L.R),
    passes: block.has(L.P) ? Math.round(block.number(L.P)) : 1,
    line: machine.line,
  };
}

/** Writes the moves of the cycle (its block is `length` units long); `steps` are those of its subroutine, executed from the start of the cycle. */
export function expandRequest(
  machine: Machine,
  length: number,
  request: ProfileRequest,
  steps: StepTable,
): void {
  const { v } = machine.state;
  const start = { x: request.x, y: v[S.y], z: request.z };
  if (v[S.x] !== start.x || v[S.z] !== start.z) {
    [v[S.x], v[S.z]] = [start.x, start.z];
    machine.step(KIND.rapid);
  }
  const found = segmentsOf(start, steps);
  if (request.finishing) finish(machine, length, request, found);
  else rough(machine, length, request, found);
}

type Found = ReturnType<typeof segmentsOf>;

/**
 * G70: P passes, the first at the distance D from the profile, the last at E (from memory; the steps between are taken as
 * equal).
 */
function finish(machine: Machine, length: number, request: ProfileRequest, found: Found): void {
  const { v } = machine.state;
  const passes = Math.min(MOST_PASSES, Math.max(1, request.passes));
  const [first, last] = [or(request.d, 0), or(request.e, 0)];
  for (let pass = 1; pass <= passes; pass += 1) {
    const away = passes === 1 ? last : last + ((first - last) * (passes - pass)) / (passes - 1);
    const moved = offsetProfile(found.profile, away);
    const data = moved.origins.map(origin => found.data[origin]);
    const start = { x: request.x, y: v[S.y], z: request.z };
    const result = expandLatheFinish(moved.profile, start, new MachineSink(machine, data));
    report(machine, { length }, result);
    tooSmall(machine, length, moved.gouges);
    if (!result.expanded) {
      machine.forget(5);
      return;
    }
  }
}

/** G71, G72: cuts at levels down to the profile moved by D, then one pass along it. */
function rough(machine: Machine, length: number, request: ProfileRequest, found: Found): void {
  const { v } = machine.state;
  const moved = offsetProfile(found.profile, or(request.d, 0));
  if (Number.isNaN(request.i)) {
    machine.assume('rough-depth-usual', 'the depth of a cut without I is taken as 1 unit of the program');
  }
  const result = expandLatheRough(
    {
      direction: request.face ? 'face' : 'turn',
      profile: moved.profile,
      depth_mm: or(request.i, USUAL_DEPTH * machine.unit),
      retract_mm: or(request.r, USUAL_RETRACT * machine.unit),
      allowance_x: 0,
      allowance_z: 0,
      pockets: request.pockets,
    },
    { x: request.x, y: v[S.y], z: request.z },
    new MachineSink(machine),
  );
  report(machine, { length }, result);
  tooSmall(machine, length, moved.gouges);
  if (!result.expanded) machine.forget(5);
}

function tooSmall(machine: Machine, length: number, gouges: boolean): void {
  if (!gouges) return;
  const text = 'the distance from the profile does not fit into its inside corners or arcs';
  machine.problem('comp-inside-corner', 0, length, text);
}

function or(value: number, other: number): number {
  return Number.isNaN(value) ? other : value;
}
