import { HOLE_QUANTITIES } from './quantities-holes.ts';
import { LOAD_QUANTITIES } from './quantities-load.ts';
import type { Quantity } from './quantity.ts';

const MOTION_QUANTITIES = {
  spindle_rpm: {
    title: 'spindle speed',
    unit: 'rev/min',
    formula: 'n = S; under constant surface speed n = min(n_max, 1000 vc / (pi d))',
    means: 'How fast the tool (mill) or the work (lathe) turns.',
    range: '0 up to what machine, holder and chuck allow',
    source: 'ISO 3002-1; NISTIR 6556 for S and constant surface speed',
    format: 'spindle',
  },
  feed_mm_min: {
    title: 'feed rate',
    unit: 'mm/min',
    formula: 'vf = F; vf = f n under feed per revolution; vf = L F under inverse time',
    means: 'How fast the tool moves along its path.',
    range: 'over 0 in a feed move, up to what the axes allow',
    source: 'ISO 3002-3; NISTIR 6556 for the feed modes',
    format: 'feed',
  },
  feed_per_rev_mm: {
    title: 'feed per revolution',
    unit: 'mm/rev',
    formula: 'f = vf / n',
    means: 'How far the tool moves in one turn of the spindle.',
    range: 'over 0; the window of tool and material',
    source: 'ISO 3002-3',
    format: 'feed-per-rev',
  },
  chip_load_mm: {
    title: 'chip load',
    unit: 'mm per tooth',
    formula: 'fz = vf / (n z)',
    means:
      'How far the tool advances for each tooth: the bite of one tooth before thinning. Single-point tools: the feed per revolution; drills: per lip.',
    range: 'the window of tool and material; under about a third of the edge radius no chip forms',
    source: 'ISO 3002-3',
    format: 'chip-load',
  },
  surface_speed_m_min: {
    title: 'surface speed',
    unit: 'm/min',
    formula: 'vc = pi D n / 1000',
    means: 'How fast edge and work pass each other. It decides heat and tool life more than anything else.',
    range: 'the window of tool material and work material',
    source: 'ISO 3002-1',
    format: 'surface-speed',
  },
  length_mm: {
    title: 'length of the move',
    unit: 'mm',
    formula: 'straight: root of the sum of squares; arc: R theta; helix: sqrt((R theta)^2 + dz^2)',
    means: 'How far the tool travels along its path.',
    range: '0 or more',
    source: 'geometry; NISTIR 6556 for arcs',
    format: 'length',
  },
  time_s: {
    title: 'time',
    unit: 's',
    formula: 't = 60 L / vf, longer where acceleration or block rate hold the machine back',
    means: 'How long the move takes on a machine with the stated limits.',
    range: '0 or more',
    source: 'definition; kinematics of constant acceleration',
    format: 'time',
  },
  programmed_time_s: {
    title: 'programmed time',
    unit: 's',
    formula: 't = 60 L / vf',
    means: 'How long the move takes if the machine reaches its feed at once.',
    range: '0 or more',
    source: 'definition',
    format: 'time',
  },
  axial_depth_mm: {
    title: 'axial depth',
    unit: 'mm',
    formula: 'ap: greatest depth of the cut along the tool axis, from the stock before the move',
    means: 'How deep the tool stands in the stock.',
    range: '0 to the flute length',
    source: 'ISO 3002-3 (back engagement)',
    format: 'length',
  },
  radial_width_mm: {
    title: 'radial width',
    unit: 'mm',
    formula: 'ae: width of the cut square to the path, from the stock before the move',
    means: 'How wide the tool stands in the stock.',
    range: '0 to the tool diameter',
    source: 'ISO 3002-3 (working engagement)',
    format: 'length',
  },
  engagement_deg: {
    title: 'engagement angle',
    unit: 'degrees',
    formula: 'phi = acos(1 - 2 ae/D) along a straight wall',
    means: 'The part of a turn that a tooth spends in the stock. Corners raise it.',
    range: '0 to 180 (slot); more in a closed corner',
    source: 'Altintas, Manufacturing Automation, ch. 2',
    format: 'angle',
  },
  chip_thickness_mm: {
    title: 'greatest chip thickness',
    unit: 'mm',
    formula: 'h = fz sin(kappa) 2 sqrt(q - q^2) for q = ae/D < 0.5, else fz sin(kappa)',
    means: 'The thickest place of a chip. Narrow cuts make thinner chips than the chip load says.',
    range: 'over the minimum chip thickness of the edge, up to the chip load',
    source: 'Martellotti 1941; ISO 3002-3',
    format: 'thickness',
  },
  mean_chip_thickness_mm: {
    title: 'mean chip thickness',
    unit: 'mm',
    formula: 'h_m = 2 fz sin(kappa) q / phi',
    means: 'The mean thickness of a chip over its arc; what force tables are read at.',
    range: '0 up to 0.72 of the chip load',
    source: 'Dietrich and Tschaetsch, Praxis der Zerspantechnik',
    format: 'thickness',
  },
  min_chip_thickness_mm: {
    title: 'minimum chip thickness',
    unit: 'mm',
    formula: 'h_min = k r, k = 0.14 to 0.43 by material',
    means: 'Under this thickness an edge of radius r makes no chip: it presses and rubs.',
    range: '0.14 to 0.43 of the edge radius',
    source: 'Cheng et al. 2018 (range of k, abstract)',
    format: 'thickness',
  },
  effective_diameter_mm: {
    title: 'working diameter',
    unit: 'mm',
    formula: 'ball: 2 sqrt(ap (D - ap)); bull nose: D - 2 r + 2 sqrt(ap (2 r - ap)); cone: d0 + 2 h tan(s/2)',
    means: 'The diameter at which the tool really cuts at this depth.',
    range: '0 to the tool diameter',
    source: 'circle and cone geometry',
    format: 'length',
  },
  roughness_um: {
    title: 'theoretical roughness',
    unit: 'um',
    formula:
      'nose: Rt = r - sqrt(r^2 - f^2/4); wall of a mill the same with R = D/2; round tip: cusp R - sqrt(R^2 - (s/2)^2), s = ae - flat',
    means: 'The height of the marks that feed and tool shape alone leave; real surfaces are rougher.',
    range: '0 or more; real Ra is 1 to 2 times the ideal',
    source: 'Boothroyd and Knight, Fundamentals of Machining',
    format: 'roughness',
  },
} as const satisfies Record<string, Quantity>;

/** Every quantity of the program by its name in machine-readable output. */
export const QUANTITIES = /* @__PURE__ */ (() =>
  ({ ...MOTION_QUANTITIES, ...LOAD_QUANTITIES, ...HOLE_QUANTITIES }) as const)();
export type QuantityName = keyof typeof QUANTITIES;

/**
 * Tells whether a text is the name of a quantity.
 * @formula membership in the table of quantities
 * @units none
 * @range any text
 * @source definition in this library
 */
export function isQuantityName(name: string): name is QuantityName {
  return Object.hasOwn(QUANTITIES, name);
}
