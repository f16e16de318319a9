import { meanChipThicknessOverArc } from '../../cutting/chip-thickness.ts';
import { isAbsent } from '../../cutting/result.ts';
import type { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import { edgeFacts } from '../facts.ts';
import type { Program } from '../program.ts';
import { loadsOf } from './add-loads.ts';
import { toolBendingStress } from './bending-stress.ts';
import { discFigures } from './disc-figures.ts';
import { millEdgeAngle } from './pointed-edge.ts';

/** What the cut of one line is besides its loads; a figure that is not known is absent. Sums run over the line, the others are its greatest cut. */
export interface CutFigures {
  volume_mm3?: number;
  /** Share of its way that the line makes without contact, 0 to 1. */
  air_share?: number;
  /** Where the arc begins and ends, clockwise from the left of the feed: left wall 0, ahead 90, right wall 180. */
  entry_deg?: number;
  exit_deg?: number;
  /** Share of the arc that climbs as the spindle turns, 0 to 1. */
  climb_share?: number;
  mean_chip_thickness_mm?: number;
  bending_stress_n_mm2?: number;
}

/** Mills whose edge is straight over the depth, unless its corner is round. */
const STRAIGHT = new Set<string | undefined>(['end-mill', 'face-mill', 'slot-mill', 'chamfer-mill']);
const CUTTING = new Set<number>([KIND.feed, KIND.arc, KIND.thread]);

/** Figures of the cut that a line makes; undefined where the stock says nothing of it. */
export function cutFigures(program: Program, line: number): CutFigures | undefined {
  const { cuts } = program;
  if (!cuts) return undefined;
  const sum = { seen: false, volume: 0, way: 0, air: 0, arc: -1 };
  const found: CutFigures = {};
  const cursor = program.reading.stepsOfLine(line);
  while (cursor.next()) {
    if (cuts.kind === 'lathe') {
      const figures = cuts.figures(cursor);
      if (!figures || !CUTTING.has(cursor.kind)) continue;
      sum.seen = true;
      sum.volume += figures.removed_mm3;
      continue;
    }
    const met = cuts.figures(cursor);
    if (!met || !CUTTING.has(cursor.kind)) continue;
    const figures = discFigures(met, program.tool(cursor.runValues[RUN.tool]));
    sum.seen = true;
    sum.volume += figures.removed_mm3;
    sum.way += cursor.length_mm;
    sum.air += figures.air_share * cursor.length_mm;
    if (!(figures.removed_mm3 > 0) || figures.engagement_deg <= sum.arc) continue;
    sum.arc = figures.engagement_deg;
    greatest(program, cursor, figures, found);
  }
  if (!sum.seen) return undefined;
  found.volume_mm3 = sum.volume;
  if (sum.way > 0) found.air_share = sum.air / sum.way;
  return found;
}

function greatest(program: Program, step: StepCursor, figures: MoveFigures, found: CutFigures): void {
  const tool = program.tool(step.runValues[RUN.tool]);
  const set = (name: keyof CutFigures, value: number) => {
    if (Number.isFinite(value)) found[name] = value;
  };
  const { entry_deg, exit_deg } = figures;
  set('entry_deg', Math.max(0, entry_deg));
  set('exit_deg', Math.min(180, exit_deg));
  const turns = step.run('direction');
  if (turns === 1 || turns === -1)
    set('climb_share', turns === 1 ? figures.climb_share : 1 - figures.climb_share);
  const mean = meanChipThicknessOverArc({
    chip_load_mm: edgeFacts(step.runValues, tool, program.kind, step.x).chip_load_mm,
    entry_deg: Math.max(0, entry_deg),
    exit_deg: Math.min(180, exit_deg),
    edge_angle_deg: millEdgeAngle(tool),
  });
  if (STRAIGHT.has(tool?.kind?.value) && !tool?.corner_radius_mm?.value && !isAbsent(mean))
    set('mean_chip_thickness_mm', mean);
  const stress = toolBendingStress(figures, loadsOf(program, step, tool), tool);
  if (stress > 0) set('bending_stress_n_mm2', stress);
}
