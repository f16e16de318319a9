import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';

/**
 * Figures of a slot cutter held to its disc: the stock counts metal above the disc as cut (undercuts are not modelled), the disc cuts no
 * more than its width. Going down it does clear all that it passes. Other tools and discs of unknown width stay as they are.
 */
export function discFigures(figures: MoveFigures, tool: ToolKnown | undefined): MoveFigures {
  const width = tool?.kind?.value === 'slot-mill' ? tool.width_mm?.value : undefined;
  const depth = figures.axial_depth_mm;
  if (!width || !(depth > width) || figures.bottom_share > 0) return figures;
  return { ...figures, axial_depth_mm: width, removed_mm3: (figures.removed_mm3 * width) / depth };
}
