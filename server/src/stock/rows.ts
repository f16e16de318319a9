/** What one tile has of the places on the path. */
import { rowWidth } from './kernel/memory.ts';

export { rowWidth };

/** Numbers in a row of `Rows`. */
export const row = {
  station: 0,
  depth: 1,
  arc: 2,
  least: 3,
  most: 4,
  width: 5,
  climb: 6,
  bottom: 7,
  body: 8,
  centre: 9,
  /** Height of contact of the leading side in this tile, mm, and the level at which the arcs were read. */
  contact: 10,
  level: 11,
} as const;

/** Contacts found, one row a station and tile; stations in air have no row. */
export class Rows {
  data = new Float32Array(16 * rowWidth);
  count = 0;

  /** Appends the first `count` rows of `from`. */
  add(from: Float32Array, count: number): void {
    const at = this.count * rowWidth;
    const more = count * rowWidth;
    if (at + more > this.data.length) {
      const grown = new Float32Array(2 * (at + more));
      grown.set(this.data);
      this.data = grown;
    }
    const data = this.data;
    for (let k = 0; k < more; k++) data[at + k] = from[k];
    this.count += count;
  }
}
