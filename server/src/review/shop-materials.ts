import { builtInMaterials, type Material, withUserMaterials } from '../materials/index.ts';
import type { Crib } from '../setup/index.ts';

const held = new WeakMap<Crib, readonly Material[]>();

/** The known materials with those of the cribs on top; the nearest crib wins. */
export function shopMaterials(cribs: readonly Crib[]): readonly Material[] {
  return cribs
    .toReversed()
    .reduce<readonly Material[]>((known, crib) => withCrib(crib, known), builtInMaterials);
}

function withCrib(crib: Crib, known: readonly Material[]): readonly Material[] {
  if (!crib.materials) return known;
  const kept = known === builtInMaterials ? held.get(crib) : undefined;
  if (kept) return kept;
  const user = Object.fromEntries(
    [...crib.materials].map(([name, entry]) => [
      name,
      {
        same_as: entry.same_as?.value,
        kc11_n_mm2: entry.kc11_n_mm2?.value,
        mc: entry.mc?.value,
        surface_speed_m_min: pair(entry.surface_speed_m_min),
        chip_load_mm: pair(entry.chip_load_mm),
      },
    ]),
  );
  const { materials } = withUserMaterials(user, known);
  if (known === builtInMaterials) held.set(crib, materials);
  return materials;
}

function pair(range: { value: readonly number[] } | undefined): [number, number] | undefined {
  return range && [range.value[0], range.value[1]];
}
