import { powerFromForce } from '../../cutting/power.ts';
import { type Absent, type Estimate, isAbsent, isEstimate } from '../../cutting/result.ts';
import { turnedRoughnessRt } from '../../cutting/roughness.ts';
import { groovingForce, turningForce } from '../../cutting/turning.ts';
import { forceFigures, type Material } from '../../materials/index.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { LatheFigures } from '../../stock/lathe-figures.ts';
import type { EdgeFacts } from '../facts.ts';
import { type Loads, NO_LOADS } from './milling-loads.ts';

/** Finished radius at the place that is asked about, and the share of the way that runs along the axis. */
export interface Way {
  x_mm: number;
  along_share: number;
}

/** Loads of a move with a single-point tool out of what it met in the bar. */
export function turningLoads(
  figures: LatheFigures,
  edge: EdgeFacts,
  tool: ToolKnown | undefined,
  material: Material | undefined,
  way: Way,
): Loads & { roughness_um: number } {
  const none = { ...NO_LOADS, roughness_um: Number.NaN };
  if (!figures.cuts || !tool) return none;
  const depth = figures.thread_pass_mm > 0 ? figures.thread_pass_mm : figures.depth_mm;
  const f = edge.feed_per_rev_mm;
  const blade = tool.kind?.value === 'groove' || tool.kind?.value === 'part-off';
  // the chip's middle runs on another diameter than the finished one
  const inward = tool.kind?.value === 'bore-bar' ? -1 : 1;
  const meanShare = blade || !(way.x_mm > 0) ? 1 : 1 + (inward * depth * way.along_share) / (2 * way.x_mm);
  const loads = {
    ...none,
    axial_depth_mm: depth,
    removal_cm3_min:
      (blade ? (tool.width_mm?.value ?? Number.NaN) : depth) * f * edge.surface_speed_m_min * meanShare,
    roughness_um: number(
      turnedRoughnessRt({ feed_per_rev_mm: f, nose_radius_mm: tool.nose_radius_mm?.value }),
    ),
  };
  const kc = material && forceFigures(material);
  const edge_angle_deg = tool.edge_angle_deg?.value;
  const nose = tool.nose_radius_mm?.value;
  if (!blade)
    loads.chip_thickness_mm = greatestThickness(f, depth, nose ?? Number.NaN, edge_angle_deg ?? Number.NaN);
  if (!kc || isAbsent(kc)) return loads;
  const common = { kc11_n_mm2: kc.kc11_n_mm2.value, mc: kc.mc, feed_per_rev_mm: f };
  loads.force_n = blade
    ? number(groovingForce({ ...common, width_mm: tool.width_mm?.value }))
    : number(turningForce({ ...common, axial_depth_mm: depth, nose_radius_mm: nose, edge_angle_deg }));
  loads.power_kw = number(
    powerFromForce({ force_n: loads.force_n, surface_speed_m_min: edge.surface_speed_m_min }),
  );
  loads.torque_nm = (loads.force_n * figures.outer_radius_mm) / 1000;
  return loads;
}

/**
 * Thickest place of the chip along nose and edge, mm: f sin(kappa) where the edge angle is greatest within the depth, f where the nose reaches 90
 * degrees (ISO 3002-3; on the nose kappa = acos(1 - ap/r)).
 */
function greatestThickness(
  feed_mm: number,
  depth_mm: number,
  nose_mm: number,
  edge_angle_deg: number,
): number {
  const kappa = (edge_angle_deg * Math.PI) / 180;
  const reached = nose_mm > 0 ? Math.acos(Math.max(-1, 1 - depth_mm / nose_mm)) : kappa;
  const steepest = nose_mm > 0 ? Math.min(reached, kappa, Math.PI / 2) : kappa;
  return feed_mm * Math.sin(steepest);
}

function number(result: number | Estimate | Absent): number {
  if (isAbsent(result)) return Number.NaN;
  return isEstimate(result) ? result.value : result;
}
