import { millEdgeAngle } from '../../cuts/pointed-edge.ts';
import type { Seen } from '../../cuts/step-scan.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { ToolUse } from '../../tool-use.ts';
import { isMillingCutter, isSinglePoint } from '../../working.ts';

/** How a tool's passes stand against the thinnest chip that its edge can cut. */
export interface ThinPass {
  line: number;
  /** Thickest chip of the pass, mm. */
  chip_thickness_mm: number;
  length_mm: number;
}

/** Share of the edge radius under which no chip forms where the material is not known (Cheng et al. 2018: 0.14 to 0.43; 0.2 and up for most metal). */
const USUAL_SHARE = { low: 0.2, high: 0.43 };

/** Thinnest chip that this edge can cut in this material, least and most, mm. */
export function neededChip(use: ToolUse, program: Program): { low: number; high: number; edge: number } {
  const share = program.material?.h_min_over_edge_radius ?? USUAL_SHARE;
  const edge = use.tool?.edge_radius_mm?.value ?? Number.NaN;
  return { low: share.low * edge, high: share.high * edge, edge };
}

export function hasChip(use: ToolUse): boolean {
  const kind = use.tool?.kind?.value;
  if (kind === 'thread-mill' || kind === 'thread-turn') return false;
  return isMillingCutter(kind) || isSinglePoint(kind);
}

/** The longest pass whose thickest chip stays under a bound; passes shorter than a diameter are leads and corners. */
export const thinPasses = watchSteps<{ rubs?: ThinPass; may_rub?: ThinPass; thin?: ThinPass }>(
  (use, program) => {
    const needed = neededChip(use, program);
    if (!(needed.edge > 0) || !hasChip(use)) return undefined;
    const least_mm = program.kind === 'lathe' ? 2 : (use.tool?.diameter_mm?.value ?? 0) / 2;
    const longest: { rubs?: ThinPass; may_rub?: ThinPass; thin?: ThinPass } = {};
    const bounds = [
      ['rubs', needed.low],
      ['may_rub', needed.high],
      ['thin', needed.edge],
    ] as const;
    const open = bounds.map((): ThinPass | undefined => undefined);
    const close = (at: number) => {
      const pass = open[at];
      const name = bounds[at][0];
      if (pass && pass.length_mm >= least_mm && pass.length_mm > (longest[name]?.length_mm ?? 0))
        longest[name] = pass;
      open[at] = undefined;
    };
    return {
      see(step) {
        const h = thickness(step);
        bounds.forEach(([, bound], at) => {
          if (h === undefined) return;
          if (!(h < bound)) {
            close(at);
            return;
          }
          const cut = step.step.length_mm * (1 - (step.mill?.air_share ?? 0));
          const pass = open[at];
          if (!pass) open[at] = { line: step.line, chip_thickness_mm: h, length_mm: cut };
          else {
            pass.length_mm += cut;
            pass.chip_thickness_mm = Math.max(pass.chip_thickness_mm, h);
          }
        });
      },
      result() {
        bounds.forEach((_bound, at) => {
          close(at);
        });
        return longest;
      },
    };
  },
);

/** Square to the feed and without a corner radius: the arc alone decides the thickness. */
function isSquare({ tool }: ToolUse): boolean {
  if (tool?.kind?.value !== 'end-mill' || (tool.corner_radius_mm?.value ?? 0) > 0) return false;
  return millEdgeAngle(tool) === 90;
}

/** Thickest chip of a step that cuts; NaN ends a pass, undefined says nothing of it. */
function thickness(step: Seen): number | undefined {
  const { mill, lathe, rapid } = step;
  if (rapid) return Number.NaN;
  if (!step.trusted || !step.cuts) return undefined;
  if (mill && (step.down_mm > step.level_mm || !(mill.engagement_deg > 0))) return undefined;
  if (lathe && !lathe.cuts) return undefined;
  const h = isSquare(step.use) ? step.arc_share * step.edge.chip_load_mm : step.loads.chip_thickness_mm;
  return h > 0 ? h : undefined;
}
