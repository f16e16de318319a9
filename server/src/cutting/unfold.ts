import { greatestChipThickness } from './chip-thickness.ts';
import { inputWords } from './compute.ts';
import { clampDiameter, spindleUnderCss } from './constant-surface-speed.ts';
import { endMillDeflection } from './deflection.ts';
import { engagementAngle } from './engagement.ts';
import { chipLoad, chipLoadFromFeedPerRev, feedPerRev } from './feeds.ts';
import type { ShownUnits } from './format.ts';
import { formatQuantity } from './format.ts';
import { cuttingForce } from './kienzle.ts';
import { powerFromForce, powerFromRemoval, powerFromTorque, torqueFromPower } from './power.ts';
import type { QuantityName } from './quantities.ts';
import { QUANTITIES } from './quantities.ts';
import { millingRemoval, removalFromSpeed } from './removal.ts';
import type { Absent, Estimate, Given } from './result.ts';
import { isAbsent } from './result.ts';
import { cuspHeight, turnedRoughnessRt } from './roughness.ts';
import { surfaceSpeed } from './surface-speed.ts';
import { moveTime } from './time.ts';

type Inputs<T> = T extends (given: infer G) => unknown ? G : never;
type Show = (name: QuantityName, value: Given | Estimate) => string;

/** Feed as a program states it, so that the hover starts from the program's own word. */
function feedWord(show: Show, value: Given): string {
  return `F ${show('feed_mm_min', value)}`;
}
const count = (value: Given): string => (typeof value === 'number' ? `${value}` : 'unknown');
const teeth = (value: Given): string => `${count(value)} ${value === 1 ? 'tooth' : 'teeth'}`;

/** One formula with its values in it: what it computes, and how it is written. */
interface Unfolding<G> {
  readonly quantity: QuantityName;
  readonly result: (given: G) => number | Estimate | Absent;
  readonly text: (given: G, show: Show, units: ShownUnits) => string;
}
/* @__NO_SIDE_EFFECTS__ */
function unfolding<G>(
  quantity: QuantityName,
  result: Unfolding<G>['result'],
  text: Unfolding<G>['text'],
): Unfolding<G> {
  return { quantity, result, text };
}

export const UNFOLDINGS = {
  chip_load: unfolding<Inputs<typeof chipLoad>>(
    'chip_load_mm',
    chipLoad,
    (g, show) =>
      `${feedWord(show, g.feed_mm_min)} ÷ (${show('spindle_rpm', g.spindle_rpm)} × ${teeth(g.teeth)})`,
  ),
  chip_load_from_feed_per_rev: unfolding<Inputs<typeof chipLoadFromFeedPerRev>>(
    'chip_load_mm',
    chipLoadFromFeedPerRev,
    (g, show) => `F ${show('feed_per_rev_mm', g.feed_per_rev_mm)} ÷ ${teeth(g.teeth)}`,
  ),
  feed_per_rev: unfolding<Inputs<typeof feedPerRev>>(
    'feed_per_rev_mm',
    feedPerRev,
    (g, show) => `${feedWord(show, g.feed_mm_min)} ÷ ${show('spindle_rpm', g.spindle_rpm)}`,
  ),
  surface_speed: unfolding<Inputs<typeof surfaceSpeed>>(
    'surface_speed_m_min',
    surfaceSpeed,
    (g, show, units) => {
      const turns = `π × ${show('length_mm', g.diameter_mm)} × ${show('spindle_rpm', g.spindle_rpm)}`;
      return units === 'inch' ? `${turns} ÷ 12` : `${turns} ÷ 1000`;
    },
  ),
  spindle_under_css: unfolding<Inputs<typeof spindleUnderCss>>('spindle_rpm', cssSpindle, cssText),
  engagement: unfolding<Inputs<typeof engagementAngle>>(
    'engagement_deg',
    engagementAngle,
    (g, show) =>
      `acos(1 − 2 × ${show('radial_width_mm', g.radial_width_mm)} ÷ ${show('length_mm', g.diameter_mm)})`,
  ),
  chip_thickness: unfolding<Inputs<typeof greatestChipThickness>>(
    'chip_thickness_mm',
    greatestChipThickness,
    thicknessText,
  ),
  removal: unfolding<Inputs<typeof millingRemoval>>('removal_cm3_min', millingRemoval, (g, show) =>
    [
      show('radial_width_mm', g.radial_width_mm),
      show('axial_depth_mm', g.axial_depth_mm),
      feedWord(show, g.feed_mm_min),
    ].join(' × '),
  ),
  turning_removal: unfolding<Inputs<typeof removalFromSpeed>>(
    'removal_cm3_min',
    removalFromSpeed,
    (g, show) =>
      [
        show('surface_speed_m_min', g.surface_speed_m_min),
        show('axial_depth_mm', g.axial_depth_mm),
        show('feed_per_rev_mm', g.feed_per_rev_mm),
      ].join(' × '),
  ),
  force: unfolding<Inputs<typeof cuttingForce>>('force_n', cuttingForce, (g, show) => {
    const correction = g.correction === undefined ? '' : ` × ${count(g.correction)}`;
    const thickness = `(h ${show('chip_thickness_mm', g.chip_thickness_mm)})^${Number((1 - Number(g.mc)).toFixed(4))}`;
    return `kc1.1 ${count(g.kc11_n_mm2)} N/mm2 × b ${show('length_mm', g.chip_width_mm)} × ${thickness}${correction}`;
  }),
  power: unfolding<Inputs<typeof powerFromRemoval>>(
    'power_kw',
    powerFromRemoval,
    (g, show) =>
      `${show('removal_cm3_min', g.removal_cm3_min)} × ${show('specific_force_n_mm2', g.specific_force_n_mm2)}`,
  ),
  power_from_force: unfolding<Inputs<typeof powerFromForce>>(
    'power_kw',
    powerFromForce,
    (g, show) => `${show('force_n', g.force_n)} × ${show('surface_speed_m_min', g.surface_speed_m_min)}`,
  ),
  power_from_torque: unfolding<Inputs<typeof powerFromTorque>>(
    'power_kw',
    powerFromTorque,
    (g, show) => `2π × ${show('torque_nm', g.torque_nm)} × ${show('spindle_rpm', g.spindle_rpm)}`,
  ),
  torque: unfolding<Inputs<typeof torqueFromPower>>(
    'torque_nm',
    torqueFromPower,
    (g, show) => `${show('power_kw', g.power_kw)} ÷ (2π × ${show('spindle_rpm', g.spindle_rpm)})`,
  ),
  deflection: unfolding<Inputs<typeof endMillDeflection>>('deflection_mm', endMillDeflection, (g, show) => {
    const flutes = `flutes ${show('length_mm', g.flute_length_mm)} as ${count(g.fluted_share ?? 0.8)} × ${show('length_mm', g.diameter_mm)}`;
    const shank = `shank ${show('length_mm', g.shank_diameter_mm)}`;
    return `${show('force_n', g.force_n)} on ${show('length_mm', g.stickout_mm)} of tool (${flutes}, ${shank})`;
  }),
  roughness: unfolding<Inputs<typeof turnedRoughnessRt>>(
    'roughness_um',
    turnedRoughnessRt,
    (g, show) =>
      `r − √(r² − f²/4) with r ${show('length_mm', g.nose_radius_mm)}, f ${show('feed_per_rev_mm', g.feed_per_rev_mm)}`,
  ),
  cusp: unfolding<Inputs<typeof cuspHeight>>(
    'roughness_um',
    cuspHeight,
    (g, show) =>
      `R − √(R² − s²/4) with 2R ${show('length_mm', g.diameter_mm)}, s ${show('length_mm', g.step_over_mm)}`,
  ),
  time: unfolding<Inputs<typeof moveTime>>(
    'time_s',
    moveTime,
    (g, show) => `${show('length_mm', g.length_mm)} ÷ ${feedWord(show, g.feed_mm_min)}`,
  ),
} as const;
export type UnfoldingName = keyof typeof UNFOLDINGS;
export type UnfoldingInputs<N extends UnfoldingName> = Parameters<(typeof UNFOLDINGS)[N]['result']>[0];

/**
 * A formula with its values in it, for a hover: `F 72 in/min ÷ (8000 rev/min × 3 teeth) = 0.0030 in/tooth`.
 * An absent result names what is missing instead.
 * @formula the quantity's formula, each symbol replaced by its value in the reader's units
 * @units inputs as the function of that quantity; gives text in mm or inch units
 * @range every name of UNFOLDINGS
 * @source the quantity's own
 */
export function unfold<N extends UnfoldingName>(
  name: N,
  given: UnfoldingInputs<N>,
  units: ShownUnits,
): string {
  const entry = UNFOLDINGS[name] as Unfolding<UnfoldingInputs<N>>;
  const result = entry.result(given);
  if (isAbsent(result)) {
    const missing = result.missing?.map(inputWords).join(', ');
    const why = missing === undefined ? result.absent : `needs ${missing}`;
    return `${QUANTITIES[entry.quantity].title}: ${why}`;
  }
  const show: Show = (quantity, value) => formatQuantity(quantity, value, units);
  return `${entry.text(given, show, units)} = ${formatQuantity(entry.quantity, result, units)}`;
}

function cssSpindle(given: Inputs<typeof spindleUnderCss>): number | Absent {
  const result = spindleUnderCss(given);
  return isAbsent(result) ? result : result.spindle_rpm;
}

function cssText(g: Inputs<typeof spindleUnderCss>, show: Show): string {
  const asked = `${show('surface_speed_m_min', g.surface_speed_m_min)} ÷ (π × ${show('length_mm', g.diameter_mm)})`;
  const result = spindleUnderCss(g);
  if (isAbsent(result) || !result.clamped) return asked;
  const below = clampDiameter({ surface_speed_m_min: g.surface_speed_m_min, max_rpm: g.max_rpm });
  return `${asked}, held at the limit ${show('spindle_rpm', g.max_rpm)} below ${show('length_mm', isAbsent(below) ? below : Number(below.toPrecision(3)))}`;
}

function thicknessText(g: Inputs<typeof greatestChipThickness>, show: Show): string {
  const { chip_load_mm, radial_width_mm, diameter_mm, edge_angle_deg } = g;
  const narrow =
    typeof radial_width_mm === 'number' &&
    typeof diameter_mm === 'number' &&
    2 * radial_width_mm < diameter_mm;
  const load = show('chip_load_mm', chip_load_mm);
  const lead =
    edge_angle_deg === undefined || edge_angle_deg === 90 ? '' : ` × sin ${count(edge_angle_deg)}°`;
  if (!narrow) return `${load}${lead} (width of cut at least half the diameter: no thinning)`;
  return `${load}${lead} × 2√(q − q²), q = ${show('radial_width_mm', radial_width_mm)} ÷ ${show('length_mm', diameter_mm)}`;
}
