/** How much of the tool's underside stands in metal. */
import { heightUnits } from './cells.ts';
import { filled, holds, least, uncut } from './field.ts';
import { floorAt, sideAt, topAt } from './memory.ts';
import { sx, sy } from './place.ts';
import { forget, metalAt, nearest, seenTop } from './probe.ts';
import { profileAt, radius, skin } from './tool.ts';
import { cosineOf, sineOf, turns } from './turns.ts';

/** Share of the underside in metal, depth of the highest metal there over the tip, and whether the axis stands in metal (0 or 1). */
export let underShare: f64 = 0;
export let underDepth: f64 = 0;
export let underCentre: f64 = 0;

const rings: i32 = 3;
const spokes: i32 = 12;

/** Reads the underside of a tool whose tip stands at height `z` (mm), from samples of equal area. */
export function readBottom(z: f64): void {
  underShare = 0;
  underCentre = 0;
  underDepth = 0;
  let highest: i32 = -0x7fff_ffff;
  let hits: i32 = 0;
  for (let ring: i32 = 0; ring < rings; ring++) {
    const rho: f64 = radius * Math.sqrt((ring + 0.5) / rings);
    const limit: f64 = (z + profileAt(rho) + skin) * heightUnits;
    for (let spoke: i32 = 0; spoke < spokes; spoke++) {
      const k: i32 = spoke * (turns / spokes) + ring;
      const x: f64 = sx + rho * cosineOf(k);
      const y: f64 = sy + rho * sineOf(k);
      if (!holds(x, y)) continue;
      let top: i32 = uncut;
      if (filled) {
        const cell: i32 = nearest(x, y);
        top = topAt(cell);
        if (top <= limit) continue;
        if (sideAt(cell) < 0) top = least(top, floorAt(cell));
      }
      if (top <= limit) continue;
      hits++;
      if (top > highest) highest = top;
    }
  }
  const all: f64 = rings * spokes;
  if (hits > 0) {
    underShare = hits / all;
    underDepth = highest / heightUnits - z;
  }
  forget();
  if (holds(sx, sy) && metalAt(sx, sy, (z + skin) * heightUnits) > 0) {
    underCentre = 1;
    underDepth = Math.max(underDepth, seenTop / heightUnits - z);
  }
}
