import { latheStock } from './cuts/stock-of.ts';
import type { Program } from './program.ts';

/** The bar of a lathe as far as it is known and not assumed; radii in mm, the greatest along it. */
export interface StatedBar {
  /** Z of the end face; undefined when the sheet does not say. */
  readonly face_z_mm: number | undefined;
  readonly radius_mm: number;
  readonly bore_radius_mm: number;
}

/** The bar out of the sheet, or what another program leaves once that is worked out. */
export function statedBar(program: Program): StatedBar | undefined {
  const { cuts } = program;
  const stock = latheStock(program);
  if (stock?.shape === 'bar')
    return {
      face_z_mm: stock.face_mm?.value,
      radius_mm: stock.diameter_mm.value / 2,
      bore_radius_mm: (stock.bore_mm?.value ?? 0) / 2,
    };
  if (stock?.shape !== 'from' || cuts?.kind !== 'lathe' || cuts.assumed) return undefined;
  const { high_z_mm, radius_mm, profile } = cuts.bar;
  let bore_radius_mm = 0;
  for (const radius of profile?.inner ?? []) if (radius > bore_radius_mm) bore_radius_mm = radius;
  return { face_z_mm: high_z_mm, radius_mm, bore_radius_mm };
}
