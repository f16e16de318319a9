import { meanChipThicknessOverArc } from '../../cutting/chip-thickness.ts';
import { isAbsent } from '../../cutting/result.ts';
import { isHoleTool } from '../../materials/index.ts';
import type { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import { edgeFacts, type Span } from '../facts.ts';
import type { Program } from '../program.ts';
import { arcsOfMove } from './arcs-of-move.ts';
import { toolBendingStress } from './bending-stress.ts';
import { discFigures } from './disc-figures.ts';
import { millingLoads } from './milling-loads.ts';
import { millEdgeAngle } from './pointed-edge.ts';

/** Figures of a cut that are told with their least and greatest over the line. */
interface CutSpans {
  /** Where the arc begins and ends, clockwise from the left of the feed: left wall 0, ahead 90, right wall 180. */
  entry_deg?: Span;
  exit_deg?: Span;
  /** Share of the arc that climbs as the spindle turns, 0 to 1. */
  climb_share?: Span;
  mean_chip_thickness_mm?: Span;
  bending_stress_n_mm2?: Span;
}

/** What the cut of one line is besides its loads; a figure that is not known is absent. */
export interface CutFigures extends CutSpans {
  /** Sum over the line. */
  volume_mm3?: number;
  /** Share of its way that the line makes without contact, 0 to 1. */
  air_share?: number;
}

/** Mills whose edge is straight over the depth, unless its corner is round. */
const STRAIGHT = new Set<string | undefined>(['end-mill', 'face-mill', 'slot-mill', 'chamfer-mill']);
const CUTTING = new Set<number>([KIND.feed, KIND.arc, KIND.thread]);

/**
 * Figures of the cut that a line makes; undefined where the stock says nothing of it. The spans hold the values of all its moves that cut, each
 * at its greatest arc and, where the engagement changes along it, at its least one.
 */
export function cutFigures(program: Program, line: number): CutFigures | undefined {
  const { cuts } = program;
  if (!cuts) return undefined;
  const sum = { seen: false, volume: 0, way: 0, air: 0 };
  const found: CutFigures = {};
  const cursor = program.reading.stepsOfLine(line);
  while (cursor.next()) {
    if (cuts.kind === 'lathe') {
      if (!CUTTING.has(cursor.kind)) continue;
      const figures = cuts.figures(cursor);
      if (!figures && !backsOut(cursor, program.tool(cursor.runValues[RUN.tool]))) continue;
      sum.seen = true;
      sum.volume += figures?.removed_mm3 ?? 0;
      sum.way += cursor.length_mm;
      sum.air += (figures?.air_share ?? 1) * cursor.length_mm;
      continue;
    }
    const met = cuts.figures(cursor);
    if (!met || !CUTTING.has(cursor.kind)) continue;
    const figures = discFigures(met, program.tool(cursor.runValues[RUN.tool]));
    sum.seen = true;
    sum.volume += figures.removed_mm3;
    sum.way += cursor.length_mm;
    sum.air += figures.air_share * cursor.length_mm;
    if (!(figures.removed_mm3 > 0)) continue;
    for (const arc of arcsOfMove(figures)) addArc(program, cursor, arc, found);
  }
  if (!sum.seen) return undefined;
  found.volume_mm3 = sum.volume;
  if (sum.way > 0 && !Number.isNaN(sum.air)) found.air_share = sum.air / sum.way;
  return found;
}

/** A drill, reamer or tap of known size leaves the hole along the lathe's axis: no cut, so the stock has no figures of it. */
function backsOut({ x0, x, z0, z }: StepCursor, tool: ToolKnown | undefined): boolean {
  const drills = tool?.kind !== undefined && isHoleTool(tool.kind.value) && tool.diameter_mm !== undefined;
  return drills && x0 === 0 && x === 0 && z > z0;
}

/** Widens the spans by the values at one arc of a step. */
function addArc(program: Program, step: StepCursor, figures: MoveFigures, found: CutSpans): void {
  const tool = program.tool(step.runValues[RUN.tool]);
  const add = (name: keyof CutSpans, value: number) => {
    if (!Number.isFinite(value)) return;
    const [least, most] = found[name] ?? [value, value];
    found[name] = [Math.min(least, value), Math.max(most, value)];
  };
  const entry_deg = Math.max(0, figures.entry_deg);
  const exit_deg = Math.min(180, figures.exit_deg);
  add('entry_deg', entry_deg);
  add('exit_deg', exit_deg);
  const turns = step.run('direction');
  if (turns === 1 || turns === -1)
    add('climb_share', turns === 1 ? figures.climb_share : 1 - figures.climb_share);
  const edge = edgeFacts(step.runValues, tool, program.kind, step.x);
  const mean = meanChipThicknessOverArc({
    chip_load_mm: edge.chip_load_mm,
    entry_deg,
    exit_deg,
    edge_angle_deg: millEdgeAngle(tool),
  });
  if (STRAIGHT.has(tool?.kind?.value) && !tool?.corner_radius_mm?.value && !isAbsent(mean))
    add('mean_chip_thickness_mm', mean);
  const loads = millingLoads(figures, edge, tool, program.material, step.length_mm);
  const stress = toolBendingStress(figures, loads, tool);
  if (stress > 0) add('bending_stress_n_mm2', stress);
}
