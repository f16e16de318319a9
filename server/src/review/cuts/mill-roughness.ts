import { type Absent, isAbsent } from '../../cutting/result.ts';
import { cuspHeight, turnedRoughnessRt, wallRoughness } from '../../cutting/roughness.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import type { EdgeFacts } from '../facts.ts';

/** An arc that ends this near to the side of the feed leaves a wall there, degrees. */
const AT_SIDE_DEG = 1;

/** Length of a move, mm, and whether it stays at one height. */
export interface LevelWay {
  length_mm: number;
  level: boolean;
}

/**
 * Theoretical height of the marks that a milling move leaves, um; NaN where it leaves none that are known.
 * Wall of an end mill: R - sqrt(R^2 - f^2/4), f the chip load, with a stated runout the feed per revolution. Floor of a round tip: the
 * cusp to a neighbouring pass as far away as this one is wide, past the flat of the tip. Face mill: marks of the corner at the same f.
 * A move down leaves no such surface.
 */
export function millRoughness(
  figures: MoveFigures,
  edge: EdgeFacts,
  tool: ToolKnown | undefined,
  way: LevelWay,
): number {
  const kind = tool?.kind?.value;
  const diameter_mm = tool?.diameter_mm?.value;
  if (!tool || !diameter_mm || !(figures.removed_mm3 > 0) || figures.bottom_share > 0) return Number.NaN;
  const spacing = (tool.runout_mm?.value ?? 0) > 0 ? edge.feed_per_rev_mm : edge.chip_load_mm;
  if (kind === 'face-mill')
    return known(
      turnedRoughnessRt({ feed_per_rev_mm: spacing, nose_radius_mm: tool.corner_radius_mm?.value }),
    );
  const corner = kind === 'ball-mill' ? diameter_mm / 2 : (tool.corner_radius_mm?.value ?? 0);
  const round = kind === 'ball-mill' || kind === 'bull-mill' || (kind === 'end-mill' && corner > 0);
  if (!round && kind !== 'end-mill' && kind !== 'slot-mill') return Number.NaN;
  const wall =
    upright(figures, kind, corner) && leavesWall(figures)
      ? known(wallRoughness({ mark_spacing_mm: spacing, diameter_mm }))
      : 0;
  if (!round) return wall > 0 ? wall : Number.NaN;
  const cusp = cuspOf(figures, diameter_mm, corner, way);
  const most = Math.max(Number.isNaN(cusp) ? 0 : cusp, wall > 0 ? wall : 0);
  return most > 0 ? most : Number.NaN;
}

/** Distance between passes by volume and by width agree this well on a level floor; on a slope they do not, and the cusp is not known. */
const AGREE_SHARE = 0.25;

/**
 * Cusp to the pass beside, um. Deeper than the corner the flank tells how far away that pass lies, else the volume: (volume a
 * millimetre of way) / (depth - h/3), h/3 being the mean height that the cusp itself keeps back (parabola).
 */
function cuspOf(figures: MoveFigures, diameter_mm: number, corner_mm: number, way: LevelWay): number {
  if (!way.level || !oneSided(figures)) return Number.NaN;
  const { axial_depth_mm, radial_width_mm } = figures;
  const passAside = (pitch: number) =>
    known(
      cuspHeight({
        diameter_mm: 2 * corner_mm,
        step_over_mm: Math.max(0, pitch - (diameter_mm - 2 * corner_mm)),
      }),
    );
  if (axial_depth_mm > corner_mm) return passAside(radial_width_mm);
  const section = figures.removed_mm3 / (way.length_mm * (1 - figures.air_share));
  let cusp = 0;
  for (let turn = 0; turn < 3; turn++) {
    const pitch = section / (axial_depth_mm - cusp / 3000);
    if (!(Math.abs(pitch - radial_width_mm) <= AGREE_SHARE * radial_width_mm)) return Number.NaN;
    cusp = passAside(pitch);
  }
  return cusp;
}

/** What would have to be known of the tool for the marks of a move. */
export function missingForMillRoughness(tool: ToolKnown | undefined): string | undefined {
  return tool?.kind?.value === 'face-mill' && !tool.corner_radius_mm ? 'corner radius' : undefined;
}

/** A round corner alone leaves no wall; along a ball the feed marks have its own radius. */
function upright({ axial_depth_mm }: MoveFigures, kind: string | undefined, corner_mm: number): boolean {
  return kind === 'ball-mill' || axial_depth_mm > corner_mm;
}

function leavesWall({ entry_deg, exit_deg }: MoveFigures): boolean {
  return entry_deg <= AT_SIDE_DEG || exit_deg >= 180 - AT_SIDE_DEG;
}

/** Metal on one side, the other side open: a pass was made there. */
function oneSided(figures: MoveFigures): boolean {
  const { entry_deg, exit_deg } = figures;
  return leavesWall(figures) && (entry_deg > AT_SIDE_DEG || exit_deg < 180 - AT_SIDE_DEG);
}

function known(result: number | Absent): number {
  return isAbsent(result) ? Number.NaN : result;
}
