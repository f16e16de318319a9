import { ARC_WIDTH, KIND, RUN, RUN_WIDTH, type StepTable } from '../rs274/steps.ts';

/** Cosine over which two directions run on smoothly, and under which they make a corner. */
const SMOOTH = 0.999;
const CORNER = 0.5;

/**
 * Whether an arc makes a corner with the moves before and after it that would run on smoothly if it turned the other way:
 * about the same centre, or about the centre on the other side of its chord (as a radius word gives).
 */
export function turnsBack(table: StepTable, i: number, x: number, y: number, z: number): boolean {
  const { kind, count } = table;
  if (i === 0 || i + 1 >= count || kind[i - 1] !== KIND.feed || kind[i + 1] !== KIND.feed) return false;
  const plane = table.runs[table.run[i] * RUN_WIDTH + RUN.plane];
  const [first, second] =
    plane === 17 ? [table.x, table.y] : plane === 18 ? [table.z, table.x] : [table.y, table.z];
  const start = plane === 17 ? [x, y] : plane === 18 ? [z, x] : [y, z];
  if (i < 2) return false;
  const before = unit(start[0] - first[i - 2], start[1] - second[i - 2]);
  const end = [first[i], second[i]];
  const after = unit(first[i + 1] - end[0], second[i + 1] - end[1]);
  if (!before || !after) return false;
  const row = table.aux[i] * ARC_WIDTH;
  const centre = [table.arcs[row], table.arcs[row + 1]];
  const way = Math.sign(table.arcs[row + 2]);
  const now = meets(start, end, centre, way, before, after);
  if (now.least > CORNER || now.most > SMOOTH) return false;
  const mirrored = mirror(start, end, centre);
  return [centre, mirrored].some(about => meets(start, end, about, -way, before, after).least > SMOOTH);
}

type Pair = readonly number[];

function meets(start: Pair, end: Pair, centre: Pair, way: number, before: Pair, after: Pair) {
  const leaves = tangent(start, centre, way);
  const arrives = tangent(end, centre, way);
  const a = before[0] * leaves[0] + before[1] * leaves[1];
  const b = after[0] * arrives[0] + after[1] * arrives[1];
  return { least: Math.min(a, b), most: Math.max(a, b) };
}

function tangent(at: Pair, centre: Pair, way: number): Pair {
  return unit(-(at[1] - centre[1]) * way, (at[0] - centre[0]) * way) ?? [Number.NaN, Number.NaN];
}

function mirror(start: Pair, end: Pair, centre: Pair): Pair {
  return [start[0] + end[0] - centre[0], start[1] + end[1] - centre[1]];
}

function unit(a: number, b: number): Pair | undefined {
  const length = Math.hypot(a, b);
  return length > 1e-6 ? [a / length, b / length] : undefined;
}
