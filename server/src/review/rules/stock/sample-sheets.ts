/** Setup sheets and heads of programs that the cases of the stock rules share. */

type Json = Record<string, unknown>;

/** A mill with a block of C45, 40 x 40 x 20 mm, zero at the top front left corner, and tool 1. */
export function millSheet(tool: Json, more: Json = {}): string {
  const { workpiece, machine, ...rest } = more as { workpiece?: Json; machine?: Json };
  return JSON.stringify({
    units: 'mm',
    machine: { kind: 'mill', dialect: 'iso6983', ...machine },
    workpiece: {
      material: 'C45',
      stock: { shape: 'block', size: [40, 40, 20], zero: [0, 0, 20] },
      ...workpiece,
    },
    tools: { 1: tool },
    ...rest,
  });
}

/** A lathe with a bar of C45, 50 mm diameter, 60 mm long, face at Z1, and tool 1. */
export function latheSheet(tool: Json, more: Json = {}): string {
  const { workpiece, ...rest } = more as { workpiece?: Json };
  return JSON.stringify({
    units: 'mm',
    machine: { kind: 'lathe', dialect: 'lathe-a' },
    workpiece: {
      material: 'C45',
      stock: { shape: 'bar', diameter: 50, length: 60, face: 1 },
      ...workpiece,
    },
    tools: { 1: tool },
    ...rest,
  });
}

export const END_MILL_10 = {
  kind: 'end-mill',
  diameter: 10,
  teeth: 4,
  substrate: 'carbide',
  stickout: 35,
  flute_length: 22,
};

export const TURNING_TOOL = {
  kind: 'turn',
  nose_radius: 0.8,
  edge_angle_deg: 95,
  substrate: 'carbide',
};

/** Lines before the first move of a mill case. */
export const MILL_HEAD = 'G21 G17 G40 G90 G94\nT1 M6\nG54 S3000 M3\n';
/** Lines before the first move of a lathe case. */
export const LATHE_HEAD = 'G21 G18 G40 G99\nT0101\nG97 S1000 M3\n';

/** An end mill with a stated edge; the part is heat treated after. */
export const PASSES_SHEET = millSheet(
  { ...END_MILL_10, edge_radius: 0.03, wear: 'used' },
  { workpiece: { heat_treat_after: true } },
);

/** A roughing pass at Y10 and a finishing pass `width` mm further, F600 at 3000 rev/min and 4 teeth: 0.05 mm a tooth. */
export const passes = (width: number, mark = '') =>
  `${MILL_HEAD}G0 X-10. Y10. Z5.\nG1 Z-4. F200.\nX50. F600.\nG0 Z5.\nX-10. Y${10 + width}\nG1 Z-4. F200.\nX50. F600.\n${mark}G0 Z5.\n`;
