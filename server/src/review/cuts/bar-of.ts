import type { BarStock } from '../../stock/lathe-profile.ts';
import { extentsOf } from '../extents.ts';
import type { Program } from '../program.ts';
import { latheStock, leftFor, type Placed, sureness } from './stock-of.ts';

/** The bar of a lathe: as the sheet says, else one around the program's own cuts, marked as assumed. */
export function barOf(program: Program): Placed<BarStock> & { not_modelled?: readonly string[] } {
  const stock = latheStock(program);
  if (stock?.shape === 'bar') {
    const { diameter_mm, bore_mm, length_mm, face_mm } = stock;
    if (!face_mm) return { why: 'the bar needs the Z of its face' };
    const box = extentsOf(program);
    const low = length_mm
      ? face_mm.value - length_mm.value
      : Math.min(box?.min[2] ?? 0, face_mm.value) - diameter_mm.value;
    return {
      stock: {
        low_z_mm: low,
        high_z_mm: face_mm.value,
        radius_mm: diameter_mm.value / 2,
        bore_radius_mm: (bore_mm?.value ?? 0) / 2,
        ...(length_mm ? {} : { open_end: true }),
      },
      assumed: false,
    };
  }
  if (stock?.shape === 'from') {
    const left = leftFor(program, { stock, kind: 'lathe' });
    if ('why' in left) return left;
    if (!('bar' in left)) return { why: `${stock.from.value} leaves no bar` };
    return { stock: left.bar, not_modelled: left.left_out, ...sureness(left) };
  }
  if (stock) return { why: 'the stock of a lathe is a bar' };
  const box = extentsOf(program);
  if (!box || !(box.max[0] > 0) || !(box.max[2] > box.min[2])) return { why: 'nothing cuts' };
  return {
    stock: {
      low_z_mm: box.min[2] - 1,
      high_z_mm: Math.max(0, box.max[2]),
      radius_mm: box.max[0],
      bore_radius_mm: 0,
    },
    assumed: true,
  };
}
