import { bendingStress } from '../../cutting/deflection.ts';
import { isAbsent } from '../../cutting/result.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import { helixShare } from './helix-share.ts';
import type { Loads } from './milling-loads.ts';

/** Fluted part as a bar of this share of the diameter (Kops and Vo 1990). */
const FLUTED_SHARE = 0.8;

/**
 * Bending stress of a mill, N/mm2: the larger of that at the end of the flutes and at the holder, with the force of the edges that cut at one instant
 * at half the depth. 0 where the stickout or the force is not known; beam theory, fluted part at 0.8 of the diameter.
 */
export function toolBendingStress(figures: MoveFigures, loads: Loads, tool: ToolKnown | undefined): number {
  const force_n = loads.force_n * helixShare(figures, tool);
  const diameter = tool?.diameter_mm?.value ?? Number.NaN;
  const stickout = tool?.stickout_mm?.value ?? Number.NaN;
  const flutes = Math.min(stickout, tool?.flute_length_mm?.value ?? stickout);
  const from = loads.axial_depth_mm / 2;
  const at = (arm: number, section: number) => {
    const stress = bendingStress({
      force_n,
      arm_mm: Math.max(0, arm - from),
      diameter_mm: section,
    });
    return isAbsent(stress) ? 0 : stress;
  };
  return Math.max(
    at(flutes, diameter * FLUTED_SHARE),
    at(stickout, flutes < stickout ? (tool?.shank_diameter_mm?.value ?? diameter) : diameter * FLUTED_SHARE),
  );
}
