import { type Block, L } from './block.ts';
import { PLANE } from './coordinate-change.ts';
import type { Machine } from './machine.ts';
import type { PathTag } from './open-path.ts';
import { type Pending, S } from './state.ts';
import { KIND, STEP_FLAG } from './steps.ts';

/** A line that ends in a chamfer or a round, waiting for the line after it: `,C` and `,R` of G1. */
export class OpenCorner implements Pending {
  constructor(
    /** Plane (17, 18, 19), size and kind of the corner. */
    readonly plane: number,
    readonly size_mm: number,
    readonly round: boolean,
    /** Programmed end of the line: the corner itself. */
    readonly x: number,
    readonly y: number,
    readonly z: number,
    readonly tag: PathTag,
  ) {}

  get key(): string {
    const { plane, size_mm, round, x, y, z, tag } = this;
    return `corner ${[plane, size_mm, round, x, y, z, tag.line, tag.flags, ...tag.run].join(' ')}`;
  }

  movedUp(lines: number): OpenCorner {
    const tag = { ...this.tag, line: this.tag.line - lines };
    return new OpenCorner(this.plane, this.size_mm, this.round, this.x, this.y, this.z, tag);
  }
}

/** The corner word of a block: `,C` `,R`, and on lathes R in a G1 block without the comma. Undefined without one. */
export function cornerOf(machine: Machine, block: Block): { size_mm: number; round: boolean } | undefined {
  if (machine.report) return undefined;
  const at = block.comma_c >= 0 ? block.comma_c : block.comma_r;
  if (at >= 0) return { size_mm: Math.abs(machine.length(block, at)), round: block.comma_c < 0 };
  const bare = machine.lathe_words ? block.index(L.R) : -1;
  return bare < 0 ? undefined : { size_mm: Math.abs(machine.length(block, bare)), round: true };
}

/**
 * Sends a line with its corner before a line to `to` is made: both lines are cut back by the chamfer, or by
 * r tan(turn / 2) for a round. Where they are too short the corner is left out and said so.
 */
export function sendCorner(machine: Machine, corner: OpenCorner, to: readonly number[] | undefined): void {
  const { v } = machine.state;
  machine.state.pending = null;
  const at = [corner.x, corner.y, corner.z];
  const [first, second] = PLANE[corner.plane - 17];
  const into = unit(at[first] - v[S.x + first], at[second] - v[S.x + second]);
  const out = to === undefined ? undefined : unit(to[first] - at[first], to[second] - at[second]);
  if (out === undefined || Number.isNaN(into.length + out.length)) {
    const known = to === undefined || Number.isNaN(into.length + (out?.length ?? 0));
    tell(
      machine,
      corner,
      known ? 'a corner word needs a straight line after it' : 'the corner cannot be made',
    );
    send(machine, corner, at, KIND.feed, 0, -1);
    return;
  }
  const turned = Math.atan2(into.a * out.b - into.b * out.a, into.a * out.a + into.b * out.b);
  const back = corner.round ? corner.size_mm * Math.tan(Math.abs(turned) / 2) : corner.size_mm;
  if (!(back <= into.length + 1e-9 && back <= out.length + 1e-9) || Math.abs(turned) < 1e-9) {
    tell(machine, corner, 'the lines are too short for this corner');
    send(machine, corner, at, KIND.feed, 0, -1);
    return;
  }
  const begin = [...at];
  begin[first] -= into.a * back;
  begin[second] -= into.b * back;
  const end = [...at];
  end[first] += out.a * back;
  end[second] += out.b * back;
  send(machine, corner, begin, KIND.feed, 0, -1);
  if (!corner.round) {
    send(machine, corner, end, KIND.feed, STEP_FLAG.corner, -1);
    return;
  }
  const side = turned > 0 ? 1 : -1;
  const centre_first = begin[first] - side * into.b * corner.size_mm;
  const centre_second = begin[second] + side * into.a * corner.size_mm;
  const aux = machine.table.addArc(centre_first, centre_second, turned);
  send(machine, corner, end, KIND.arc, STEP_FLAG.corner, aux);
}

function unit(a: number, b: number): { a: number; b: number; length: number } {
  const length = Math.hypot(a, b);
  return { a: a / length, b: b / length, length };
}

function tell(machine: Machine, corner: OpenCorner, message: string): void {
  const { line, length } = corner.tag;
  machine.problems.push({ code: 'corner-not-made', line, start: 0, end: length, message });
}

function send(
  machine: Machine,
  corner: OpenCorner,
  to: readonly number[],
  kind: number,
  flags: number,
  aux: number,
): void {
  const { table, state } = machine;
  const { tag } = corner;
  state.v.set(to, S.x);
  table.add(tag.line, kind, tag.flags | flags, table.runOf(tag.run), to[0], to[1], to[2], aux);
}
