import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import { effectiveTeeth } from '../working.ts';

/** Helix of a common end mill, taken where none is stated (common practice, no source). */
const COMMON_HELIX_DEG = 30;

/**
 * Share of the depth over which edges cut at one instant: on a narrow deep pass a helical edge is in the metal over a short piece only.
 * share = R phi / (ap tan(helix)), at least the mean z phi/360, at most 1; geometry of the helix.
 */
export function helixShare(figures: MoveFigures, tool: ToolKnown | undefined): number {
  const diameter = tool?.diameter_mm?.value;
  if (!diameter || !(figures.axial_depth_mm > 0)) return 1;
  const helix = ((tool?.helix_deg?.value ?? COMMON_HELIX_DEG) * Math.PI) / 180;
  const lag = figures.axial_depth_mm * Math.tan(Math.abs(helix));
  const one = ((diameter / 2) * figures.engagement_deg * Math.PI) / 180 / lag;
  const mean = ((effectiveTeeth(tool) ?? 1) * figures.engagement_deg) / 360;
  return Math.min(1, Math.max(one, mean));
}
