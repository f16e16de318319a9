import { isTurningTool } from '../materials/tool-kind.ts';
import type { Origin } from './known.ts';
import type { ToolKind, ToolProperties } from './tool-keys.ts';

/** Two sources that speak of one tool number and do not mean the same tool. */
export type Contradiction = {
  about: 'kind' | 'diameter_mm';
  known: { value: number | string; origin: Origin };
  other: { value: number | string; origin: Origin };
};

/** Whether two sources can mean the same tool: kind and diameter the same, as far as both say. */
export function agrees(known: ToolProperties, other: ToolProperties): boolean {
  return contradictionsOf(known, other).length === 0;
}

/** Where two sources differ in kind, or in diameter by more than 1 %. */
export function contradictionsOf(known: ToolProperties, other: ToolProperties): Contradiction[] {
  const result: Contradiction[] = [];
  if (known.kind && other.kind && !sameFamily(known.kind.value, other.kind.value)) {
    result.push({ about: 'kind', known: known.kind, other: other.kind });
  }
  const [a, b] = [known.diameter_mm, other.diameter_mm];
  if (a && b && Math.abs(a.value - b.value) > 0.01 * Math.max(a.value, b.value)) {
    result.push({ about: 'diameter_mm', known: a, other: b });
  }
  return result;
}

const looseWords: readonly ReadonlySet<ToolKind>[] = [
  new Set<ToolKind>(['end-mill', 'bull-mill', 'slot-mill']),
  new Set<ToolKind>(['end-mill', 'ball-mill']),
  new Set<ToolKind>(['bore', 'bore-bar']),
];

/** "End mill" in a comment may be a bull nose or ball nose; "other" may be anything. */
function sameFamily(a: ToolKind, b: ToolKind): boolean {
  return (
    a === b ||
    (isTurningTool(a) && isTurningTool(b)) ||
    a === 'other' ||
    b === 'other' ||
    looseWords.some(family => family.has(a) && family.has(b))
  );
}
