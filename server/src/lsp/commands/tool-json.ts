import type { ToolKnown, ToolProperty } from '../../setup/index.ts';

const LENGTHS = [
  ['diameter_mm', 'diameter'],
  ['corner_radius_mm', 'corner_radius'],
  ['nose_radius_mm', 'nose_radius'],
  ['flute_length_mm', 'flute_length'],
  ['stickout_mm', 'stickout'],
  ['shank_diameter_mm', 'shank_diameter'],
  ['width_mm', 'width'],
  ['pitch_mm', 'pitch'],
] as const satisfies readonly (readonly [ToolProperty, string])[];
const PLAIN = [
  'kind',
  'teeth',
  'point_angle_deg',
  'hand',
  'substrate',
  'coating',
  'insert',
  'holder',
] as const;

/** What is known of a tool as an entry of a sheet or crib; lengths carry their unit. */
export function toolJson(tool: ToolKnown | undefined, units: 'inch' | 'mm'): Record<string, string | number> {
  const entry: Record<string, string | number> = {};
  if (tool?.kind) entry.kind = tool.kind.value;
  for (const [field, key] of LENGTHS) {
    const value = tool?.[field]?.value;
    if (value !== undefined) entry[key] = lengthText(value, units);
  }
  for (const key of PLAIN) {
    const value = tool?.[key]?.value;
    if (value !== undefined) entry[key] = value;
  }
  return entry;
}

function lengthText(value_mm: number, units: 'inch' | 'mm'): string {
  const inch = units === 'inch';
  return `${Number((inch ? value_mm / 25.4 : value_mm).toPrecision(7))} ${inch ? 'in' : 'mm'}`;
}

/** A short id for the crib out of what a comment calls the tool: `1/2 END MILL` becomes `1-2-end-mill`. */
export function idFrom(text: string, taken: ReadonlySet<string>): string {
  const base =
    text
      .toLowerCase()
      .replace(/^\s*t\d+\s*/i, '')
      .replace(/[^a-z0-9.]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40) || 'tool';
  let id = base;
  for (let n = 2; taken.has(id); n++) id = `${base}-${n}`;
  return id;
}
