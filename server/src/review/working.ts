import { isConfirmed } from '../setup/known.ts';
import type { ToolKind } from '../setup/tool-keys.ts';
import type { ToolKnown } from '../setup/tools.ts';

export type MachineKind = 'mill' | 'lathe';

const SINGLE_POINT: ReadonlySet<ToolKind> = new Set([
  'bore',
  'turn',
  'bore-bar',
  'groove',
  'part-off',
  'thread-turn',
]);
const TURNS_ITS_OWN_DIAMETER: ReadonlySet<ToolKind> = new Set([
  'drill',
  'spot-drill',
  'center-drill',
  'reamer',
  'tap',
  'end-mill',
  'ball-mill',
  'bull-mill',
  'face-mill',
  'chamfer-mill',
  'slot-mill',
  'thread-mill',
]);
const FEED_PER_REV: ReadonlySet<ToolKind> = new Set([
  'drill',
  'spot-drill',
  'center-drill',
  'reamer',
  'tap',
  'bore',
  'turn',
  'bore-bar',
  'groove',
  'part-off',
  'thread-turn',
]);
const MILLS: ReadonlySet<ToolKind> = new Set([
  'end-mill',
  'ball-mill',
  'bull-mill',
  'face-mill',
  'chamfer-mill',
  'slot-mill',
  'thread-mill',
]);

/** True for tools that cut with one edge: the feed per revolution is their chip load. */
export function isSinglePoint(kind: ToolKind | undefined): boolean {
  return kind !== undefined && SINGLE_POINT.has(kind);
}

/** True for tools whose feed is judged per revolution. */
export function isFedPerRevolution(kind: ToolKind | undefined): boolean {
  return kind !== undefined && FEED_PER_REV.has(kind);
}

/** True for milling cutters. */
export function isMillingCutter(kind: ToolKind | undefined): boolean {
  return kind !== undefined && MILLS.has(kind);
}

/**
 * Teeth that share the feed: as stated; one for a single-point tool; two lips for a drill that a person
 * stated to be a drill. Undefined when not known: never guessed.
 */
export function effectiveTeeth(tool: ToolKnown | undefined): number | undefined {
  if (!tool) return undefined;
  if (isSinglePoint(tool.kind?.value)) return 1;
  if (tool.teeth) return tool.teeth.value;
  if (tool.kind?.value === 'drill' && isConfirmed(tool.kind.origin)) return 2;
  return undefined;
}

/**
 * Diameter that the surface speed belongs to: the work's on a lathe (2 |X|), the tool's on a mill and for tools
 * on the centre line of a lathe. NaN when not known.
 */
export function workingDiameter(
  tool: ToolKnown | undefined,
  machine: MachineKind | undefined,
  x_mm: number,
): number {
  const kind = tool?.kind?.value;
  if (machine === 'lathe' && !(kind && TURNS_ITS_OWN_DIAMETER.has(kind))) {
    return kind === undefined && x_mm === 0 ? Number.NaN : 2 * Math.abs(x_mm);
  }
  return tool?.diameter_mm?.value ?? Number.NaN;
}
