/** Jaws, clamps, chuck, tailstock: does tool, shank or holder run into one of them on a move. */
import { type Cutter, radiusAtHeight } from './cutter.ts';
import { type Chain, chainOf, emptyChain, type MoveColumns } from './moves.ts';

export interface KeepOutBox {
  readonly what: string;
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

export interface Collision {
  readonly move: number;
  /** Index into the list of boxes. */
  readonly box: number;
  readonly part: 'tool' | 'shank' | 'holder';
  readonly rapid: boolean;
  /** Tip of the tool where it first touches, mm. */
  readonly at: readonly [number, number, number];
}

interface Disc {
  readonly part: Collision['part'];
  readonly radius_mm: number;
  readonly low_mm: number;
  readonly high_mm: number;
}

const slices = 6;
const touching_mm = 0.005;
const chain: Chain = emptyChain();

/**
 * First contact of each part of the tool with each box on move `move`, swept exactly along straight pieces; arcs within 0.02 mm.
 * A round or pointed tip counts as six discs, each at the radius of its lower end. Touching without overlap is no contact.
 */
export function collisions(
  moves: MoveColumns,
  move: number,
  tool: Cutter,
  boxes: readonly KeepOutBox[],
): Collision[] {
  const hits: Collision[] = [];
  if (boxes.length === 0) return hits;
  chainOf(moves, move, 0.02, chain);
  const discs = discsOf(tool);
  for (let box = 0; box < boxes.length; box++) {
    for (const part of ['tool', 'shank', 'holder'] as const) {
      const at = firstContact(discs, part, boxes[box]);
      if (at !== undefined) hits.push({ move, box, part, rapid: chain.rapid, at });
    }
  }
  return hits;
}

function discsOf(tool: Cutter): Disc[] {
  const discs: Disc[] = [];
  const edge = tool.edge_height_mm;
  for (let k = 0; k < slices && edge > 0; k++) {
    const low = (edge * k) / slices;
    discs.push({
      part: 'tool',
      radius_mm: radiusAtHeight(tool, low),
      low_mm: low,
      high_mm: (edge * (k + 1)) / slices,
    });
  }
  const flank = tool.body[0]?.low_mm ?? edge + 4 * tool.radius_mm;
  discs.push({ part: 'tool', radius_mm: tool.radius_mm, low_mm: edge, high_mm: Math.max(edge, flank) });
  for (const body of tool.body) {
    discs.push({ part: body.what, radius_mm: body.radius_mm, low_mm: body.low_mm, high_mm: body.high_mm });
  }
  return discs;
}

function firstContact(
  discs: readonly Disc[],
  part: string,
  box: KeepOutBox,
): [number, number, number] | undefined {
  const p = chain.points;
  for (let k = 0; k < chain.pieces; k++) {
    let first = 2;
    for (const disc of discs) {
      if (disc.part !== part || disc.radius_mm <= touching_mm) continue;
      first = Math.min(first, contactShare(p, 3 * k, disc, box));
    }
    if (first <= 1) {
      const at = (axis: number): number => p[3 * k + axis] + (p[3 * k + 3 + axis] - p[3 * k + axis]) * first;
      return [at(0), at(1), at(2)];
    }
  }
  return undefined;
}

/** Share of the piece at which the disc first overlaps the box, 2 when it never does. */
function contactShare(p: Float64Array, at: number, disc: Disc, box: KeepOutBox): number {
  const rise = p[at + 5] - p[at + 2];
  let from = 0;
  let to = 1;
  // tip heights at which disc and box share a height
  const low = box.low[2] - disc.high_mm + touching_mm;
  const high = box.high[2] - disc.low_mm - touching_mm;
  if (rise === 0) {
    if (p[at + 2] < low || p[at + 2] > high) return 2;
  } else {
    const a = (low - p[at + 2]) / rise;
    const b = (high - p[at + 2]) / rise;
    from = Math.max(0, Math.min(a, b));
    to = Math.min(1, Math.max(a, b));
    if (from > to) return 2;
  }
  const reach = disc.radius_mm - touching_mm;
  const apart = (share: number): number => {
    const x = p[at] + (p[at + 3] - p[at]) * share;
    const y = p[at + 1] + (p[at + 4] - p[at + 1]) * share;
    return Math.hypot(
      Math.max(box.low[0] - x, 0, x - box.high[0]),
      Math.max(box.low[1] - y, 0, y - box.high[1]),
    );
  };
  if (apart(from) <= reach) return from;
  // the distance to a box is convex along a line: find its least value, then where it falls to the radius
  let a = from;
  let b = to;
  for (let turn = 0; turn < 60; turn++) {
    const third = (b - a) / 3;
    if (apart(a + third) <= apart(b - third)) b -= third;
    else a += third;
  }
  const nearest = (a + b) / 2;
  if (apart(nearest) > reach) return 2;
  let out = from;
  let inside = nearest;
  for (let turn = 0; turn < 50; turn++) {
    const middle = (out + inside) / 2;
    if (apart(middle) <= reach) inside = middle;
    else out = middle;
  }
  return inside;
}
