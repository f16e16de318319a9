/** What a lathe program leaves, to start the next program from. */

import type { LatheStock } from './lathe.ts';
import { skin_mm } from './lathe-figures.ts';
import type { BarProfile, BarStock } from './lathe-profile.ts';

/** Rings thinner than this between two cuts are no piece, mm. */
const sliver_mm = 0.1;

/**
 * The piece that goes on: the whole of it, or after parting off the end away from the chuck when the part is turned round. A
 * reason where that is not known.
 */
export function pieceLeft(
  stock: LatheStock,
  { open_end }: BarStock,
  turned_round: boolean,
): BarStock | { why: string } {
  const pieces = piecesOf(stock);
  if (pieces.length === 0) return { why: 'nothing of the bar is left' };
  if (pieces.length > 2) return { why: `it leaves ${pieces.length} pieces, and which goes on is not known` };
  if (pieces.length === 2 && !turned_round)
    return { why: 'it parts the bar off, and whether the piece or the bar goes on is not known' };
  const [from, to] = pieces[pieces.length - 1];
  if (turned_round && from === 0 && open_end) return { why: 'its sheet does not state how long the bar is' };
  const part = (radii: Float64Array) => radii.slice(from, to);
  const profile = { outer: part(stock.outer), inner: part(stock.inner), thread: part(stock.thread) };
  const piece = barOf(stock.low_z_mm + from * stock.slice_mm, stock.slice_mm, profile);
  return from === 0 && open_end ? { ...piece, open_end } : piece;
}

/** The bar as it lies for the next program: turned round end for end, then with its end face at `face_z_mm`; without that it stays. */
export function laidBar(bar: BarStock, turned_round: boolean, face_z_mm: number | undefined): BarStock {
  const { profile } = bar;
  if (!profile) return bar;
  const slice = (bar.high_z_mm - bar.low_z_mm) / profile.outer.length;
  const { outer, inner, thread } = profile;
  const lying = turned_round
    ? { outer: outer.slice().reverse(), inner: inner.slice().reverse(), thread: thread.slice().reverse() }
    : profile;
  const length = bar.high_z_mm - bar.low_z_mm;
  const low = face_z_mm !== undefined ? face_z_mm - length : turned_round ? -bar.high_z_mm : bar.low_z_mm;
  return { ...barOf(low, slice, lying), ...(bar.open_end ? { open_end: true } : {}) };
}

function barOf(low_z_mm: number, slice_mm: number, profile: BarProfile): BarStock {
  let radius_mm = 0;
  for (const radius of profile.outer) if (radius > radius_mm) radius_mm = radius;
  return { low_z_mm, high_z_mm: low_z_mm + slice_mm * profile.outer.length, radius_mm, profile };
}

/** Runs of slices that hold metal, from the chuck outwards. */
function piecesOf({ outer, inner, slice_mm }: LatheStock): [from: number, to: number][] {
  const pieces: [number, number][] = [];
  let from = -1;
  for (let k = 0; k <= outer.length; k++) {
    const metal = k < outer.length && outer[k] - inner[k] > skin_mm;
    if (metal && from < 0) from = k;
    if (metal || from < 0) continue;
    if ((k - from) * slice_mm >= sliver_mm) pieces.push([from, k]);
    from = -1;
  }
  return pieces;
}

/** True when two bars are the same, slice by slice. */
export function sameBar({ profile: a, ...bar }: BarStock, { profile: b, ...other }: BarStock): boolean {
  if (JSON.stringify(bar) !== JSON.stringify(other)) return false;
  if (!a || !b) return a === b;
  return (['outer', 'inner', 'thread'] as const).every(
    name => a[name].length === b[name].length && a[name].every((value, k) => Object.is(value, b[name][k])),
  );
}
