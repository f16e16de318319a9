import { decodeHolder } from '../cutting/designation-holder.ts';
import { decodeInsert } from '../cutting/designation-insert.ts';
import { isAbsent } from '../cutting/result.ts';
import type { ToolProperties } from './tool-keys.ts';

/**
 * Fills in what the designations of insert (ISO 1832) and holder (ISO 5608) say and nobody stated: nose radius, edge angle,
 * hand, shank of a bar. Such a value has the origin of the designation. What is stated is never changed.
 */
export function fillFromDesignations(tool: ToolProperties): void {
  if (tool.insert && !tool.nose_radius_mm) {
    const facts = decodeInsert(tool.insert.value);
    if (!isAbsent(facts) && !isAbsent(facts.nose_radius_mm)) {
      tool.nose_radius_mm = { value: facts.nose_radius_mm, origin: tool.insert.origin };
    }
  }
  if (!tool.holder) return;
  const { value, origin } = tool.holder;
  const facts = decodeHolder(value);
  if (isAbsent(facts)) return;
  if (!isAbsent(facts.edge_angle_deg)) tool.edge_angle_deg ??= { value: facts.edge_angle_deg, origin };
  if (facts.hand !== 'neutral') tool.hand ??= { value: facts.hand, origin };
  if (facts.bar) tool.shank_diameter_mm ??= { value: facts.bar.diameter_mm, origin };
}
