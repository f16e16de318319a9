import type { Unit } from './units.ts';

/** How many figures: at least `decimals` places (`keep`: zeros at the end stay), or `figures` significant ones. */
export type Rounding =
  | { readonly decimals: number; readonly keep: boolean }
  | { readonly figures: number; readonly whole: boolean };

/** How one kind of quantity is written in one system: inside unit to shown unit, text of the unit, rounding. */
export interface Style {
  readonly from: Unit | undefined;
  readonly to: Unit | undefined;
  readonly text: string;
  readonly rounding: Rounding;
}

/* @__NO_SIDE_EFFECTS__ */
function fixed(decimals: number): Rounding {
  return { decimals, keep: true };
}
/* @__NO_SIDE_EFFECTS__ */
function upTo(decimals: number): Rounding {
  return { decimals, keep: false };
}
/** Significant figures; `whole` keeps every digit before the point. */
/* @__NO_SIDE_EFFECTS__ */
function figures(count: number, whole = false): Rounding {
  return { figures: count, whole };
}
/* @__NO_SIDE_EFFECTS__ */
function style(from: Unit | undefined, to: Unit | undefined, text: string, rounding: Rounding): Style {
  return { from, to, text, rounding };
}
/* @__NO_SIDE_EFFECTS__ */
function same(text: string, rounding: Rounding): { readonly mm: Style; readonly inch: Style } {
  const one = style(undefined, undefined, text, rounding);
  return { mm: one, inch: one };
}

/** The one table of how numbers are written. */
export const FORMAT_KINDS = {
  length: { mm: style('mm', 'mm', 'mm', upTo(3)), inch: style('mm', 'in', 'in', upTo(4)) },
  thickness: { mm: style('mm', 'mm', 'mm', fixed(3)), inch: style('mm', 'in', 'in', fixed(4)) },
  'chip-load': { mm: style('mm', 'mm', 'mm/tooth', fixed(3)), inch: style('mm', 'in', 'in/tooth', fixed(4)) },
  'feed-per-rev': { mm: style('mm', 'mm', 'mm/rev', fixed(3)), inch: style('mm', 'in', 'in/rev', fixed(4)) },
  feed: {
    mm: style('mm/min', 'mm/min', 'mm/min', figures(4, true)),
    inch: style('mm/min', 'in/min', 'in/min', figures(4, true)),
  },
  'surface-speed': {
    mm: style('m/min', 'm/min', 'm/min', figures(3, true)),
    inch: style('m/min', 'ft/min', 'sfm', figures(3, true)),
  },
  spindle: same('rev/min', figures(3, true)),
  removal: {
    mm: style('cm3/min', 'cm3/min', 'cm³/min', figures(3, true)),
    inch: style('cm3/min', 'in3/min', 'in³/min', figures(3, true)),
  },
  force: { mm: style('N', 'N', 'N', figures(2)), inch: style('N', 'lbf', 'lbf', figures(2)) },
  torque: { mm: style('N m', 'N m', 'N·m', figures(2)), inch: style('N m', 'lbf in', 'in·lbf', figures(2)) },
  power: { mm: style('kW', 'kW', 'kW', figures(2)), inch: style('kW', 'hp', 'hp', figures(2)) },
  stress: {
    mm: style('N/mm2', 'N/mm2', 'N/mm²', figures(2)),
    inch: style('N/mm2', 'ksi', 'ksi', figures(2)),
  },
  deflection: { mm: style('mm', 'um', 'µm', figures(2)), inch: style('mm', 'in', 'in', fixed(4)) },
  roughness: { mm: style('um', 'um', 'µm', figures(2)), inch: style('um', 'uin', 'µin', figures(2)) },
  stiffness: { mm: style('N', 'N', 'N/µm', figures(2)), inch: style('N', 'lbf', 'lbf/µm', figures(2)) },
  angle: same('°', upTo(1)),
  frequency: same('Hz', figures(4, true)),
  percent: same('%', upTo(0)),
  factor: same('times', figures(2)),
  count: same('teeth', upTo(1)),
  time: same('s', figures(2)),
  minutes: same('min', figures(2)),
  money: same('', fixed(2)),
} as const satisfies Record<string, { readonly mm: Style; readonly inch: Style }>;
export type FormatKind = keyof typeof FORMAT_KINDS;
