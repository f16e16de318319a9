import type { StepCursor } from '../../rs274/index.ts';
import type { ToolKnown } from '../../setup/index.ts';
import { edgeFacts, type LineFacts, type LineQuantity, widen } from '../facts.ts';
import type { Program } from '../program.ts';
import { isSteady } from './arcs-of-move.ts';
import { discFigures } from './disc-figures.ts';
import { holdingOf } from './holding-of.ts';
import { millRoughness } from './mill-roughness.ts';
import { type Loads, millingLoads, NO_LOADS } from './milling-loads.ts';
import { turningLoads, type Way } from './turning-loads.ts';

const NAMES = [
  'axial_depth_mm',
  'radial_width_mm',
  'engagement_deg',
  'chip_thickness_mm',
  'removal_cm3_min',
  'force_n',
  'torque_nm',
  'power_kw',
  'deflection_mm',
  'roughness_um',
] as const satisfies readonly LineQuantity[];

/** Loads of one step, on a lathe at the end where the work is larger and runs past faster; all unknown where the stock says nothing of it. */
export function loadsOf(
  program: Program,
  step: StepCursor,
  tool: ToolKnown | undefined,
): Loads & { roughness_um?: number } {
  const larger = program.kind === 'lathe' && Math.abs(step.x0) > Math.abs(step.x) ? step.x0 : step.x;
  return loadsAt(program, step, tool, larger);
}

function loadsAt(
  program: Program,
  step: StepCursor,
  tool: ToolKnown | undefined,
  x: number,
): Loads & { roughness_um?: number } {
  const { cuts } = program;
  if (!cuts) return NO_LOADS;
  const edge = edgeFacts(step.runValues, tool, program.kind, x);
  if (cuts.kind === 'lathe') {
    const figures = cuts.figures(step);
    return figures ? turningLoads(figures, edge, tool, program.material, wayOf(step, x)) : NO_LOADS;
  }
  const figures = cuts.figures(step);
  return figures
    ? millingLoads(discFigures(figures, tool), edge, tool, program.material, step.length_mm)
    : NO_LOADS;
}

function wayOf(step: StepCursor, x: number): Way {
  const along = Math.abs(step.z - step.z0);
  return { x_mm: Math.abs(x), along_share: along / (Math.hypot(along, step.x - step.x0) || 1) };
}

/** Adds what the stock knows of a cutting step to a line's facts. */
export function addLoads(
  program: Program,
  step: StepCursor,
  tool: ToolKnown | undefined,
  facts: LineFacts,
): void {
  const ends = program.kind === 'lathe' ? [step.x0, step.x] : [step.x];
  const all = ends.map(x => loadsAt(program, step, tool, x));
  for (const x of ends) addSurfaceAndGrip(program, step, tool, facts, x);
  for (const loads of all) for (const name of NAMES) widen(facts, name, loads[name] ?? Number.NaN);
  addLeastEngagement(program, step, facts);
  if (program.cuts?.assumed && all.some(loads => Number.isFinite(loads.axial_depth_mm))) facts.assumed = true;
}

/** Marks that a mill leaves, and the push of the cut against the grip. */
function addSurfaceAndGrip(
  program: Program,
  step: StepCursor,
  tool: ToolKnown | undefined,
  facts: LineFacts,
  x: number,
): void {
  const { cuts } = program;
  const mill = cuts?.kind === 'mill' ? cuts.figures(step) : undefined;
  const lathe = cuts?.kind === 'lathe' ? cuts.figures(step) : undefined;
  if (mill) {
    const edge = edgeFacts(step.runValues, tool, program.kind, x);
    const way = { length_mm: step.length_mm, level: step.z === step.z0 };
    widen(facts, 'roughness_um', millRoughness(mill, edge, tool, way));
  }
  const holding = holdingOf(program, tool, loadsAt(program, step, tool, x).force_n, {
    engagement_deg: mill?.engagement_deg ?? 0,
    work_radius_mm: lathe?.outer_radius_mm ?? Number.NaN,
  });
  widen(facts, 'holding_force_n', holding.holding_force_n);
  widen(facts, 'holding_safety', holding.holding_safety);
}

/** The least engagement is shown too where it varies along the line. */
function addLeastEngagement(program: Program, step: StepCursor, facts: LineFacts): void {
  if (program.cuts?.kind !== 'mill') return;
  const figures = program.cuts.figures(step);
  if (!figures || isSteady(figures)) return;
  widen(facts, 'engagement_deg', figures.least_engagement_deg);
}
