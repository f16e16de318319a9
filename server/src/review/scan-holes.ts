import type { Piece } from './blocks.ts';
import { type Hole, type HoleList, type Holes, MOST_HOLES, NO_HOLE, stays, UNTOUCHED } from './scan-marks.ts';

/** The holes of one stretch. */
export class TableHoles implements Holes {
  readonly count: number;
  readonly first: Hole | undefined;
  readonly open_hole: Hole | undefined;

  constructor(
    private readonly holes: readonly Hole[],
    readonly open: number,
    readonly lead_dwell_s: number,
    readonly goes_on: boolean,
  ) {
    this.count = holes.length;
    this.first = holes[0];
    this.open_hole = open >= 0 ? holes[open] : undefined;
  }

  list(): HoleList {
    const { holes } = this;
    return { holes, lines: holes.map(({ line }) => line) };
  }
}

/**
 * The holes of neighbouring pieces of a program. At first only what is at the borders is joined; they are listed when
 * somebody asks, for a finishing program plunges ten thousand times and nobody looks.
 */
export class JoinedHoles implements Holes {
  count = 0;
  first: Hole | undefined;
  open_hole: Hole | undefined;
  open = UNTOUCHED;
  lead_dwell_s = 0;
  goes_on = false;
  private listed: HoleList | undefined;

  constructor(private readonly pieces: readonly Piece<Holes>[]) {
    for (const { value } of pieces) this.add(value);
  }

  list(): HoleList {
    this.listed ??= listOf(this.pieces);
    return this.listed;
  }

  /** Adds a piece; its first stroke and the dwells before it may belong to the hole before it. Gives how many of its holes do. */
  add(more: Holes): number {
    if (this.open === UNTOUCHED) {
      this.lead_dwell_s = Math.max(this.lead_dwell_s, more.lead_dwell_s);
      this.goes_on = more.goes_on;
    }
    const from = more.goes_on && isSamePlace(more.first, this.open_hole) ? 1 : 0;
    if (this.open_hole) this.change(stretched(this.open_hole, more, from > 0 ? more.first : undefined));
    const base = this.count - from;
    this.first ??= more.first;
    this.count = Math.min(MOST_HOLES, base + more.count);
    if (more.open === NO_HOLE) this.leave();
    else if (more.open >= from) {
      this.open = base + more.open;
      this.open_hole = more.open_hole;
      if (this.open >= this.count) this.leave();
    }
    return from;
  }

  private change(hole: Hole): void {
    this.open_hole = hole;
    if (this.open === 0) this.first = hole;
  }

  private leave(): void {
    this.open = NO_HOLE;
    this.open_hole = undefined;
  }
}

function listOf(pieces: readonly Piece<Holes>[]): HoleList {
  const holes: Hole[] = [];
  const lines: number[] = [];
  const sums = new JoinedHoles([]);
  for (const { value, by } of pieces) {
    const { open } = sums;
    const before = sums.open_hole;
    const from = sums.add(value);
    const more = value.list();
    if (before) holes[open] = stretched(before, value, from > 0 ? value.first : undefined);
    for (let i = from; i < more.holes.length && holes.length < MOST_HOLES; i++) {
      holes.push(more.holes[i]);
      lines.push(more.lines[i] + by);
    }
  }
  return { holes, lines };
}

/** A hole with what the next piece begins with: dwells in it, and a stroke where it goes on. */
function stretched(hole: Hole, { lead_dwell_s }: Holes, stroke: Hole | undefined): Hole {
  const dwelt = lead_dwell_s > hole.dwell_s ? { ...hole, dwell_s: lead_dwell_s } : hole;
  return stroke ? joined(dwelt, stroke) : dwelt;
}

function isSamePlace(hole: Hole | undefined, other: Hole | undefined): boolean {
  return hole !== undefined && other !== undefined && stays(hole.x, other.x, hole.y, other.y);
}

/** A hole with the strokes that come after it in the same place. */
function joined(hole: Hole, more: Hole): Hole {
  return {
    ...hole,
    bottom: Math.min(hole.bottom, more.bottom),
    stroke_mm: Math.max(hole.stroke_mm, more.stroke_mm),
    strokes: hole.strokes + more.strokes,
    dwell_s: Math.max(hole.dwell_s, more.dwell_s),
  };
}
