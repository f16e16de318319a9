import { greatestThicknessOfRoundEdge } from '../../cutting/axial-thinning.ts';
import { greatestChipThicknessOverArc } from '../../cutting/chip-thickness.ts';
import { endMillDeflection } from '../../cutting/deflection.ts';
import { drillChipThickness, drillPower, drillThrust, drillTorque } from '../../cutting/drilling.ts';
import { ballEffectiveDiameter, bullEffectiveDiameter } from '../../cutting/effective-diameter.ts';
import { forceCorrection } from '../../cutting/kienzle.ts';
import { millingPower, millingToothForce, millingTorque } from '../../cutting/milling-load.ts';
import { type Absent, type Estimate, isAbsent, isEstimate } from '../../cutting/result.ts';
import { forceFigures, type Material } from '../../materials/index.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import type { EdgeFacts } from '../facts.ts';
import { effectiveTeeth, isMillingCutter } from '../working.ts';
import { isSteady } from './arcs-of-move.ts';
import { helixShare } from './helix-share.ts';
import { millEdgeAngle, sectionShare } from './pointed-edge.ts';

/** What one move asks of tool and machine. NaN is not known. */
export interface Loads {
  axial_depth_mm: number;
  radial_width_mm: number;
  engagement_deg: number;
  chip_thickness_mm: number;
  removal_cm3_min: number;
  force_n: number;
  torque_nm: number;
  power_kw: number;
  deflection_mm: number;
  /** Diameter that the edge runs at where it cuts deepest, mm. */
  effective_diameter_mm: number;
}

export const NO_LOADS: Loads = {
  axial_depth_mm: Number.NaN,
  radial_width_mm: Number.NaN,
  engagement_deg: Number.NaN,
  chip_thickness_mm: Number.NaN,
  removal_cm3_min: Number.NaN,
  force_n: Number.NaN,
  torque_nm: Number.NaN,
  power_kw: Number.NaN,
  deflection_mm: Number.NaN,
  effective_diameter_mm: Number.NaN,
};

/** Young's modulus by tool material, N/mm2 (general materials data, from memory). */
const MODULUS: Partial<Record<string, number>> = { carbide: 600_000, hss: 210_000 };

/** Loads of a move with a rotating tool out of what it met in the stock, at the chip load in force. */
export function millingLoads(
  figures: MoveFigures,
  edge: EdgeFacts,
  tool: ToolKnown | undefined,
  material: Material | undefined,
  length_mm: number,
): Loads {
  if (!(figures.removed_mm3 > 0)) return NO_LOADS;
  const kind = tool?.kind?.value;
  const removal = removalRate(figures, edge.feed_mm_min, tool, length_mm);
  const loads: Loads = {
    ...NO_LOADS,
    axial_depth_mm: figures.axial_depth_mm,
    radial_width_mm: figures.radial_width_mm,
    engagement_deg: figures.engagement_deg,
    removal_cm3_min: removal > 0 && Number.isFinite(removal) ? removal : Number.NaN,
  };
  if (kind === 'drill') return { ...loads, ...drillLoads(edge, tool, material) };
  if (!isMillingCutter(kind) || !tool?.diameter_mm) return loads;
  const cut = cutOf(figures, edge, tool, material);
  const thickness = greatestThickness(cut);
  if (Number.isFinite(thickness)) loads.chip_thickness_mm = thickness;
  loads.effective_diameter_mm = effectiveDiameter(tool, figures.axial_depth_mm);
  if (isAbsent(cut.kc) || !(edge.chip_load_mm > 0)) return loads;
  const given = {
    ...cut.milling,
    kc11_n_mm2: cut.kc.kc11_n_mm2.value,
    mc: cut.kc.mc,
    correction: cut.correction,
  };
  loads.force_n = number(millingToothForce(given));
  // The tooth straight ahead cuts all of the flank's depth; over the arc the section of a pointed tool is less.
  const share = sectionShare(figures, tool, cut.milling, length_mm);
  loads.torque_nm = share * number(millingTorque(given));
  loads.power_kw = share * number(millingPower({ ...given, spindle_rpm: edge.spindle_rpm }));
  const bending = loads.force_n * helixShare(figures, tool);
  loads.deflection_mm = deflection(tool, bending, figures.axial_depth_mm);
  return loads;
}

/**
 * Removal rate: width times depth times feed where a square tool cuts steadily, else what the move took out over
 * the time that it cuts; cm3/min.
 */
function removalRate(
  figures: MoveFigures,
  feed_mm_min: number,
  tool: ToolKnown | undefined,
  length_mm: number,
): number {
  const kind = tool?.kind?.value;
  const square = kind === 'end-mill' || kind === 'face-mill' || kind === 'slot-mill';
  // going down it cuts with its underside too
  const level = !(figures.bottom_share > 0);
  if (square && isSteady(figures) && level && figures.radial_width_mm > 0)
    return (figures.axial_depth_mm * figures.radial_width_mm * feed_mm_min) / 1000;
  return (figures.removed_mm3 / 1000) * (feed_mm_min / (length_mm * (1 - figures.air_share)));
}

function cutOf(figures: MoveFigures, edge: EdgeFacts, tool: ToolKnown, material: Material | undefined) {
  const [entry_deg, exit_deg] = arcOf(figures);
  const ball = tool.kind?.value === 'ball-mill';
  const diameter_mm = tool.diameter_mm?.value;
  const corner = ball ? (diameter_mm ?? 0) / 2 : (tool.corner_radius_mm?.value ?? 0);
  const milling = {
    chip_load_mm: edge.chip_load_mm,
    teeth: effectiveTeeth(tool),
    diameter_mm,
    axial_depth_mm: figures.axial_depth_mm,
    entry_deg,
    exit_deg,
    edge_angle_deg: millEdgeAngle(tool),
    corner_radius_mm: corner,
  };
  const kc = material ? forceFigures(material) : ({ absent: 'material not known' } as Absent);
  return { milling, kc, correction: correctionOf(tool), corner };
}

/** Entry and exit of the arc where it is greatest; a broken arc counts as one of the same sum. */
function arcOf(figures: MoveFigures): [number, number] {
  const { entry_deg, exit_deg, engagement_deg } = figures;
  if (Number.isFinite(entry_deg + exit_deg)) return [Math.max(0, entry_deg), Math.min(180, exit_deg)];
  return [0, Math.min(180, engagement_deg)];
}

function correctionOf(tool: ToolKnown): number {
  const correction = forceCorrection({
    operation: 'milling',
    substrate: tool.substrate?.value,
    wear: tool.wear?.value,
  });
  return isAbsent(correction) ? 1 : correction.factor;
}

function greatestThickness(cut: ReturnType<typeof cutOf>): number {
  const { milling, corner } = cut;
  const radial = number(
    greatestChipThicknessOverArc({
      chip_load_mm: milling.chip_load_mm,
      entry_deg: milling.entry_deg,
      exit_deg: milling.exit_deg,
      edge_angle_deg: milling.edge_angle_deg,
    }),
  );
  if (!(corner > 0) || milling.axial_depth_mm >= corner) return radial;
  return number(
    greatestThicknessOfRoundEdge({
      feed_mm: radial,
      axial_depth_mm: milling.axial_depth_mm,
      corner_radius_mm: corner,
    }),
  );
}

function effectiveDiameter(tool: ToolKnown, axial_depth_mm: number): number {
  const diameter_mm = tool.diameter_mm?.value;
  if (tool.kind?.value === 'ball-mill') return number(ballEffectiveDiameter({ diameter_mm, axial_depth_mm }));
  const corner_radius_mm = tool.corner_radius_mm?.value;
  if (corner_radius_mm)
    return number(bullEffectiveDiameter({ diameter_mm, corner_radius_mm, axial_depth_mm }));
  return diameter_mm ?? Number.NaN;
}

function deflection(tool: ToolKnown, force_n: number, axial_depth_mm: number): number {
  const modulus = MODULUS[tool.substrate?.value ?? ''];
  const diameter_mm = tool.diameter_mm?.value;
  return number(
    endMillDeflection({
      force_n,
      diameter_mm,
      flute_length_mm: tool.flute_length_mm?.value ?? tool.stickout_mm?.value,
      shank_diameter_mm: tool.shank_diameter_mm?.value ?? diameter_mm,
      stickout_mm: tool.stickout_mm?.value,
      elastic_modulus_n_mm2: modulus,
      axial_depth_mm,
    }),
  );
}

function drillLoads(
  edge: EdgeFacts,
  tool: ToolKnown | undefined,
  material: Material | undefined,
): Partial<Loads> {
  const kc = material && forceFigures(material);
  if (!kc || isAbsent(kc)) return {};
  const given = {
    kc11_n_mm2: kc.kc11_n_mm2.value,
    mc: kc.mc,
    diameter_mm: tool?.diameter_mm?.value,
    feed_per_rev_mm: edge.feed_per_rev_mm,
    point_angle_deg: tool?.point_angle_deg?.value ?? 118,
  };
  return {
    chip_thickness_mm: number(drillChipThickness(given)),
    force_n: number(drillThrust(given)),
    torque_nm: number(drillTorque(given)),
    power_kw: number(drillPower({ ...given, spindle_rpm: edge.spindle_rpm })),
  };
}

function number(result: number | Estimate | Absent): number {
  if (isAbsent(result)) return Number.NaN;
  return isEstimate(result) ? result.value : result;
}
