import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';

/**
 * Angle between a mill's edge and the plane square to its axis, degrees: as stated; of a chamfer mill 90 less half its
 * point angle; else 90, a square edge.
 */
export function millEdgeAngle(tool: ToolKnown | undefined): number {
  const stated = tool?.edge_angle_deg?.value;
  if (stated !== undefined) return stated;
  const point = tool?.point_angle_deg?.value;
  return isPointed(tool) && point !== undefined ? 90 - point / 2 : 90;
}

/**
 * Share of depth times width of the arc that a chamfer mill really takes: what it removes a mm of way, over the rectangle
 * that its arc at full diameter and its depth make; at most 1. Other mills: 1, their sections are their own.
 * @units length_mm mm of way; a share
 */
export function sectionShare(
  figures: MoveFigures,
  tool: ToolKnown,
  arc: { entry_deg: number; exit_deg: number },
  length_mm: number,
): number {
  const diameter = tool.diameter_mm?.value;
  if (!isPointed(tool) || diameter === undefined) return 1;
  const way = length_mm * (1 - figures.air_share);
  const width =
    (diameter / 2) * (Math.cos((arc.entry_deg * Math.PI) / 180) - Math.cos((arc.exit_deg * Math.PI) / 180));
  const share = figures.removed_mm3 / (way * width * figures.axial_depth_mm);
  return share < 1 ? share : 1;
}

function isPointed(tool: ToolKnown | undefined): boolean {
  return tool?.kind?.value === 'chamfer-mill';
}
