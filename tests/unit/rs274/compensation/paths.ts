import assert from 'node:assert/strict';
import type { Flat, Segment } from '../../../../server/src/rs274/compensation/element.ts';
import {
  type CompensationRules,
  type CompensationSink,
  type CompensationState,
  finishCompensation,
  pushSegment,
  startCompensation,
} from '../../../../server/src/rs274/compensation/offset.ts';

export interface Sent {
  readonly kind: 'line' | 'arc';
  readonly from: Flat;
  readonly to: Flat;
  readonly normal: number;
  readonly centre?: Flat;
  readonly sweep_rad: number;
  readonly tag: number;
  readonly corner: boolean;
  readonly length: number;
}

/** Reads `l x y [z]` and `a x y cx cy [z]` (counter-clockwise; `c` clockwise), separated by `;`. The tag is the index. */
export function segments(start: Flat, text: string, start_normal = 0): Segment<number>[] {
  let at = start;
  let normal = start_normal;
  return text.split(';').map((row, tag) => {
    const [letter, ...numbers] = row.trim().split(/\s+/);
    const [x, y, ...rest] = numbers.map(Number);
    const end = { first: x, second: y };
    const from = at;
    at = end;
    if (letter === 'l') {
      normal = rest[0] ?? normal;
      return { start: from, end, normal, tag };
    }
    const centre = { first: rest[0], second: rest[1] };
    normal = rest[2] ?? normal;
    const a = Math.atan2(from.second - centre.second, from.first - centre.first);
    const b = Math.atan2(end.second - centre.second, end.first - centre.first);
    const turn = letter === 'a' ? 1 : -1;
    let sweep = (b - a) * turn;
    while (sweep <= 1e-12) sweep += 2 * Math.PI;
    return { start: from, end, normal, arc: { centre, sweep_rad: turn * sweep }, tag };
  });
}

/** Runs a path through compensation from G41 or G42 to G40; the state is copied between moves as the editor does. */
export function compensate(
  start: Flat,
  path: readonly Segment<number>[],
  side: 1 | -1,
  radius_mm: number,
  rules: CompensationRules,
): { sent: Sent[]; problems: string[]; end: Flat } {
  const sent: Sent[] = [];
  const problems: string[] = [];
  let at = start;
  const sink: CompensationSink<number> = {
    line: (to, normal, tag) => {
      const length = Math.hypot(to.first - at.first, to.second - at.second);
      sent.push({ kind: 'line', from: at, to, normal, sweep_rad: 0, tag, corner: false, length });
      at = to;
    },
    arc: (to, normal, { centre, sweep_rad }, tag, corner) => {
      const radius = Math.hypot(to.first - centre.first, to.second - centre.second);
      const length = radius * Math.abs(sweep_rad);
      sent.push({ kind: 'arc', from: at, to, normal, centre, sweep_rad, tag, corner, length });
      at = to;
    },
    problem: ({ code, tag }) => problems.push(`${code} ${tag}`),
  };
  let state: CompensationState<number> = startCompensation(start, 0);
  for (const segment of path) {
    state = structuredClone(pushSegment(state, segment, { side, radius_mm }, rules, sink));
  }
  const closed = finishCompensation(state, sink);
  return { sent, problems, end: closed.at };
}

/** Compares with rows `l x y` and `a x y sweep_deg`, separated by `;`. */
export function expectSent(sent: readonly Sent[], table: string): void {
  const rows = table.split(';').map(row => row.trim());
  const shown = sent.map(
    move =>
      `${move.kind} ${move.to.first} ${move.to.second}${move.kind === 'arc' ? ` ${(move.sweep_rad * 180) / Math.PI}` : ''}`,
  );
  assert.equal(sent.length, rows.length, `${shown.length} moves:\n${shown.join('\n')}`);
  for (const [index, row] of rows.entries()) {
    const [letter, ...numbers] = row.split(/\s+/);
    const move = sent[index];
    assert.equal(move.kind[0], letter, `move ${index}: ${shown[index]}, expected ${row}`);
    const actual = [move.to.first, move.to.second, (move.sweep_rad * 180) / Math.PI];
    for (const [place, number] of numbers.map(Number).entries()) {
      assert.ok(Math.abs(actual[place] - number) < 1e-5, `move ${index}: ${shown[index]}, expected ${row}`);
    }
  }
}
