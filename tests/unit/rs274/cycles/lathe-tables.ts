import assert from 'node:assert/strict';
import type { Point } from '../../../../server/src/rs274/geometry/plane.ts';
import { expectEvents, type Recorded, recorder } from './recorder.ts';

/** A lathe position from a diameter and Z; Y is not known. */
export function at(diameter: number, z: number): Point {
  return { x: diameter / 2, y: Number.NaN, z };
}

/** A recorder that stands at a diameter and Z. */
export function lathe(start: readonly [number, number]): ReturnType<typeof recorder> {
  return recorder(at(...start));
}

/** `expectEvents` with X as diameters. */
export function expectLathe(events: readonly Recorded[], table: string): void {
  expectEvents(
    events.map(event => (event.to ? { ...event, to: { ...event.to, x: event.to.x * 2 } } : event)),
    table,
  );
}

/** Compares the length by kind of move; 1e-5 because the tables are sums of rounded lengths. */
export function expectLengths(events: readonly Recorded[], expected: Readonly<Record<string, number>>): void {
  const sums: Record<string, number> = {};
  for (const { kind, length } of events) sums[kind] = (sums[kind] ?? 0) + (length ?? 0);
  assert.deepEqual(Object.keys(sums).sort(), Object.keys(expected).sort());
  for (const [kind, length] of Object.entries(expected)) {
    assert.ok(Math.abs(sums[kind] - length) < 1e-5, `${kind}: ${sums[kind]}, expected ${length}`);
  }
}
