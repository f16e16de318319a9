import type { LineFacts } from '../facts.ts';
import type { Program } from '../program.ts';
import { missingForMillRoughness } from './mill-roughness.ts';

/** Tools that leave a surface with their nose. */
const NOSED = new Set<string | undefined>(['turn', 'bore-bar']);

/** What a line that cuts would need for its marks and its holding safety: "tool 3: corner radius", "workholding: force_n". */
export function missingOfCut(program: Program, facts: LineFacts): string[] {
  if (facts.values.axial_depth_mm === undefined || facts.values.force_n === undefined) return [];
  const missing: string[] = [];
  for (const number of facts.tools) {
    const tool = program.tool(number);
    const what =
      NOSED.has(tool?.kind?.value) && !tool?.nose_radius_mm ? 'nose radius' : missingForMillRoughness(tool);
    if (what && facts.values.roughness_um === undefined) missing.push(`tool ${number}: ${what}`);
  }
  if (facts.values.holding_force_n !== undefined && !program.sheet?.workholding?.force_n)
    missing.push('workholding: force_n');
  return missing;
}
