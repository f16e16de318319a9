/** A place on the path, and what one tile has of it. */

/** One place on the path. `rise` is the sine of the path's slope; `lead_mm` the distance from the start of its straight piece. */
export interface Station {
  index: number;
  x: number;
  y: number;
  z: number;
  /** Direction of the feed seen from above. */
  dirX: number;
  dirY: number;
  level: number;
  rise: number;
  lead_mm: number;
}

/** Numbers in a row of `Rows`. */
export const rowWidth = 12;
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

  add(): number {
    const at = this.count++ * rowWidth;
    if (at + rowWidth > this.data.length) {
      const grown = new Float32Array(2 * this.data.length);
      grown.set(this.data);
      this.data = grown;
    }
    const data = this.data;
    for (let k = at; k < at + rowWidth; k++) data[k] = 0;
    return at;
  }
}
