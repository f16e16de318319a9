/** Tool kinds of the setup sheet. */
export const toolKinds = [
  'end-mill',
  'ball-mill',
  'bull-mill',
  'face-mill',
  'chamfer-mill',
  'slot-mill',
  'thread-mill',
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
  'probe',
  'other',
] as const;

export type ToolKind = (typeof toolKinds)[number];

/** Tool materials of the setup sheet. */
export type Substrate = 'hss' | 'carbide' | 'ceramic' | 'cbn' | 'diamond';

/** True for tools that turn in a spindle and cut with their circumference. */
export function isMill(kind: ToolKind): boolean {
  return kind.endsWith('-mill');
}

/** True for tools whose feed is stated per revolution and that make or finish a hole along their axis. */
export function isHoleTool(kind: ToolKind): boolean {
  return (
    kind === 'drill' ||
    kind === 'spot-drill' ||
    kind === 'center-drill' ||
    kind === 'reamer' ||
    kind === 'tap'
  );
}

/** True for tools with one cutting edge. */
export function isSinglePoint(kind: ToolKind): boolean {
  return kind === 'bore' || isTurningTool(kind);
}

/** True for the tools of a lathe that stand still. */
export function isTurningTool(kind: ToolKind): boolean {
  return (
    kind === 'turn' ||
    kind === 'bore-bar' ||
    kind === 'groove' ||
    kind === 'part-off' ||
    kind === 'thread-turn'
  );
}
