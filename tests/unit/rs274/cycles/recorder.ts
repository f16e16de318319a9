import assert from 'node:assert/strict';
import type { CycleSink } from '../../../../server/src/rs274/cycles/emit.ts';
import type { Point } from '../../../../server/src/rs274/geometry/plane.ts';

/** One recorded event: kind, end point or value, and what else is worth comparing. */
export interface Recorded {
  readonly kind: string;
  readonly to?: Point;
  readonly length?: number;
  readonly value?: number;
  readonly segment?: number;
}

/** A sink that writes down all it is given. */
export function recorder(start: Point): { readonly sink: CycleSink; readonly events: Recorded[] } {
  const events: Recorded[] = [];
  let at = start;
  const move = (kind: string, to: Point, more: Partial<Recorded> = {}) => {
    const axes = (['x', 'y', 'z'] as const).filter(
      axis => !(Number.isNaN(to[axis]) && Number.isNaN(at[axis])),
    );
    const length = Math.hypot(...axes.map(axis => to[axis] - at[axis]));
    events.push({ kind, to, length, ...more });
    at = to;
  };
  return {
    events,
    sink: {
      rapid: (to, segment) => move('rapid', to, { segment }),
      feed: (to, segment) => move('feed', to, { segment }),
      arc: (to, turn, segment) =>
        move('arc', to, {
          segment,
          value: turn.sweep_rad,
          length: Math.abs(turn.sweep_rad) * Math.hypot(...radiusOf(at, turn)),
        }),
      thread: (to, lead, depth) => move('thread', to, { value: depth ?? lead }),
      tap: (to, lead) => move('tap', to, { value: lead }),
      dwell: seconds => events.push({ kind: 'dwell', value: seconds }),
      spindle: change => events.push({ kind: change }),
      stop: () => events.push({ kind: 'operator' }),
    },
  };
}

function radiusOf(
  at: Point,
  turn: { plane: string; centre_first: number; centre_second: number },
): [number, number] {
  const [first, second] =
    turn.plane === 'xy' ? [at.x, at.y] : turn.plane === 'zx' ? [at.z, at.x] : [at.y, at.z];
  return [first - turn.centre_first, second - turn.centre_second];
}

const KIND_OF_LETTER: Readonly<Record<string, string>> = {
  r: 'rapid',
  f: 'feed',
  a: 'arc',
  t: 'tap',
  h: 'thread',
  d: 'dwell',
};

/**
 * Compares events with a table: `r 15 15 2` rapid, `f` feed, `a` arc, `t` tap, `h` thread, `d 0.2` dwell,
 * a word alone (stop, start, reverse, orient, operator) otherwise. Two numbers are x z. Tolerance 1e-6.
 */
export function expectEvents(events: readonly Recorded[], table: string): void {
  const rows = table
    .split(/[;\n]/)
    .map(row => row.trim())
    .filter(row => row !== '');
  const shown = events.map(show);
  assert.equal(shown.length, rows.length, `${shown.length} events:\n${shown.join('\n')}`);
  for (const [index, row] of rows.entries()) {
    const [letter, ...numbers] = row.split(/\s+/);
    const event = events[index];
    assert.equal(
      event.kind,
      KIND_OF_LETTER[letter] ?? letter,
      `event ${index} ${shown[index]}, expected ${row}`,
    );
    const wanted = numbers.map(Number);
    const actual =
      event.to === undefined
        ? wanted.length > 0
          ? [event.value ?? Number.NaN]
          : []
        : wanted.length === 2
          ? [event.to.x, event.to.z]
          : [event.to.x, event.to.y, event.to.z];
    for (const [place, number] of wanted.entries()) {
      assert.ok(
        Math.abs(actual[place] - number) < 1e-6 || (Number.isNaN(number) && Number.isNaN(actual[place])),
        `event ${index}: ${shown[index]}, expected ${row}`,
      );
    }
  }
}

function show(event: Recorded): string {
  if (event.to === undefined) return event.value === undefined ? event.kind : `${event.kind} ${event.value}`;
  return `${event.kind} ${event.to.x} ${event.to.y} ${event.to.z}`;
}
