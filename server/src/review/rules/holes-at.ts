import { RUN } from '../../rs274/steps.ts';
import type { ToolKind } from '../../setup/index.ts';
import type { Program } from '../program.ts';
import { scanOf } from '../scan-program.ts';
import { type Hole, holeCode } from '../scan-table.ts';

const SAME_PLACE_MM = 0.05;

/** Holes by place, in order of execution, of tools whose kind is known. */
export interface PlacedHole {
  hole: Hole;
  tool: number;
  kind: ToolKind | undefined;
}

const held = new WeakMap<Program, PlacedHole[]>();

/** All holes of the program with the tool that makes each. */
export function placedHoles(program: Program): PlacedHole[] {
  let all = held.get(program);
  if (!all) {
    all = scanOf(program).holes.map(hole => {
      const tool = hole.run[RUN.tool];
      return { hole, tool, kind: program.tool(tool)?.kind?.value };
    });
    held.set(program, all);
  }
  return all;
}

/** Whether a hole is made by tapping: a tapping cycle, or a tap. */
export function isTapped(placed: PlacedHole): boolean {
  const code = holeCode(placed.hole);
  return (
    (placed.hole.cycle && (code === 84 || code === 74 || code === 84.2 || code === 84.3)) ||
    placed.kind === 'tap'
  );
}

/** Holes made before this one at the same place and in the same work offset. */
export function holesBefore(program: Program, of: PlacedHole): PlacedHole[] {
  const frame = of.hole.run[RUN.frame];
  return placedHoles(program).filter(
    other =>
      other !== of &&
      other.tool !== of.tool &&
      other.hole.line < of.hole.line &&
      Math.abs(other.hole.x - of.hole.x) < SAME_PLACE_MM &&
      Math.abs(other.hole.y - of.hole.y) < SAME_PLACE_MM &&
      (other.hole.run[RUN.frame] === frame || Number.isNaN(frame)),
  );
}

/** First hole of each tool that satisfies `wanted`. */
export function firstOfEachTool(program: Program, wanted: (placed: PlacedHole) => boolean): PlacedHole[] {
  const seen = new Set<number>();
  return placedHoles(program).filter(placed => {
    if (seen.has(placed.tool) || !wanted(placed)) return false;
    seen.add(placed.tool);
    return true;
  });
}
