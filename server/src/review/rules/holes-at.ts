import { Slot } from '../../rs274/slot.ts';
import { RUN, STEP_FLAG } from '../../rs274/steps.ts';
import type { ToolKind } from '../../setup/index.ts';
import type { Program } from '../program.ts';
import type { Hole } from '../scan-marks.ts';
import { scanOf } from '../scan-program.ts';
import { holeCode } from '../scan-table.ts';

const SAME_PLACE_MM = 0.05;

/** Holes by place, in order of execution, of tools whose kind is known. */
export interface PlacedHole {
  hole: Hole;
  tool: number;
  kind: ToolKind | undefined;
}

const held = new Slot<Program, PlacedHole[]>();

/** All holes of the program with the tool that makes each. */
export function placedHoles(program: Program): PlacedHole[] {
  let all = held.get(program);
  if (!all) {
    let tool = Number.NaN;
    let kind: ToolKind | undefined;
    all = scanOf(program).holes.map(hole => {
      if (hole.run[RUN.tool] !== tool) {
        tool = hole.run[RUN.tool];
        kind = program.tool(tool)?.kind?.value;
      }
      return { hole, tool, kind };
    });
    held.set(program, all);
  }
  return all;
}

/** Whether a hole is made by tapping: a tapping cycle, or a tap. */
export function isTapped(placed: PlacedHole): boolean {
  if (placed.kind === 'tap') return true;
  if (!placed.hole.cycle) return false;
  const code = holeCode(placed.hole);
  return code === 84 || code === 74 || code === 84.2 || code === 84.3;
}

const PLACE_MM = 0.1;
const places = new Slot<Program, Map<string, PlacedHole[]>>();
const placeKey = (column: number, row: number) => `${column} ${row}`;

/** Holes by squares of the plane, so that those at one place are found without looking at all. */
function byPlace(program: Program): Map<string, PlacedHole[]> {
  let map = places.get(program);
  if (!map) {
    map = new Map();
    for (const placed of placedHoles(program)) {
      const key = placeKey(Math.round(placed.hole.x / PLACE_MM), Math.round(placed.hole.y / PLACE_MM));
      const list = map.get(key);
      if (list) list.push(placed);
      else map.set(key, [placed]);
    }
    places.set(program, map);
  }
  return map;
}

/** Holes made before this one at the same place and in the same work offset. */
export function holesBefore(program: Program, of: PlacedHole): PlacedHole[] {
  const frame = of.hole.run[RUN.frame];
  const map = byPlace(program);
  const column = Math.round(of.hole.x / PLACE_MM);
  const row = Math.round(of.hole.y / PLACE_MM);
  const found: PlacedHole[] = [];
  for (let c = column - 1; c <= column + 1; c++) {
    for (let r = row - 1; r <= row + 1; r++) {
      for (const other of map.get(placeKey(c, r)) ?? []) {
        if (other.tool === of.tool || other.hole.line >= of.hole.line) continue;
        if (Math.abs(other.hole.x - of.hole.x) >= SAME_PLACE_MM) continue;
        if (Math.abs(other.hole.y - of.hole.y) >= SAME_PLACE_MM) continue;
        if (other.hole.run[RUN.frame] === frame || Number.isNaN(frame)) found.push(other);
      }
    }
  }
  return found.sort((a, b) => a.hole.line - b.hole.line);
}

/** Whether a cycle runs anywhere in the program. */
export function hasCycle(program: Program): boolean {
  return program.parts.some(part => (part.flags & STEP_FLAG.cycle) !== 0);
}

/** Whether a hole of the program may be made by a cycle, or by one of these tools: asked before all holes are walked. */
export function mayHold(program: Program, kinds: readonly ToolKind[]): boolean {
  if (hasCycle(program)) return true;
  return program.uses.some(({ tool }) => tool?.kind !== undefined && kinds.includes(tool.kind.value));
}

const drilled = new Slot<Program, PlacedHole[]>();

/** Holes that a cycle makes, or a drill or a tap: few, where a finishing program plunges ten thousand times. */
export function drilledHoles(program: Program): PlacedHole[] {
  let found = drilled.get(program);
  if (!found) {
    found = mayHold(program, ['drill', 'tap'])
      ? placedHoles(program).filter(({ hole, kind }) => hole.cycle || kind === 'drill' || kind === 'tap')
      : [];
    drilled.set(program, found);
  }
  return found;
}

/** First hole of each tool that satisfies `wanted`, of those that a cycle, a drill or a tap makes. */
export function firstOfEachTool(program: Program, wanted: (placed: PlacedHole) => boolean): PlacedHole[] {
  const seen = new Set<number>();
  return drilledHoles(program).filter(placed => {
    if (seen.has(placed.tool) || !wanted(placed)) return false;
    seen.add(placed.tool);
    return true;
  });
}
