import { findMaterial } from './find.ts';
import { readHardness } from './hardness.ts';
import type { Figure, Material } from './material.ts';
import type { Source } from './sources.ts';
import { builtInMaterials } from './table.ts';

/** A material as a crib states it; the name is its key there. Units are in the names. */
export interface UserMaterial {
  /** A known material that gives what is not stated here. */
  readonly same_as?: string;
  readonly note?: string;
  readonly called?: readonly string[];
  readonly hardness?: string;
  readonly density_kg_m3?: number;
  readonly kc11_n_mm2?: number;
  readonly mc?: number;
  readonly chip_load_mm?: readonly [low: number, high: number];
  readonly feed_per_rev_mm?: readonly [low: number, high: number];
  readonly surface_speed_m_min?: readonly [low: number, high: number];
}

export interface MergedMaterials {
  /** The shop's own first: they win over built-in ones of the same name. */
  readonly materials: readonly Material[];
  /** What could not be used, in words. */
  readonly problems: readonly { readonly name: string; readonly why: string }[];
}

/**
 * Adds the shop's own materials to the known ones. Pure: neither list is changed.
 *
 * `same_as` fills what is not stated; without it such figures stay absent. Every stated figure gets the crib as its source. A figure
 * that is no positive number is left out and named in `problems`, as is a `same_as` that names no known material.
 */
export function withUserMaterials(
  user: Readonly<Record<string, UserMaterial>>,
  known: readonly Material[] = builtInMaterials,
): MergedMaterials {
  const problems: { name: string; why: string }[] = [];
  const own = Object.entries(user).map(([name, stated]) =>
    ownMaterial(name, stated, known, why => problems.push({ name, why })),
  );
  return { materials: own.length === 0 ? known : [...own, ...known], problems };
}

function ownMaterial(
  name: string,
  stated: UserMaterial,
  known: readonly Material[],
  report: (why: string) => void,
): Material {
  const source: Source = { key: 'crib', text: `crib, material ${name}`, how: 'stated' };
  const base = baseOf(stated.same_as, known, report);
  const figure = (label: string, value: number | undefined): Figure | undefined => {
    if (value === undefined) return undefined;
    if (value > 0 && Number.isFinite(value)) return { value, source };
    report(`${label} must be over 0`);
    return undefined;
  };
  const hardness = stated.hardness === undefined ? undefined : readHardness(stated.hardness);
  if (stated.hardness !== undefined && hardness === undefined)
    report('hardness needs a figure and a scale, such as 95 HB');
  const kc = figure('kc11_n_mm2', stated.kc11_n_mm2);
  const { chip_load_mm, feed_per_rev_mm, surface_speed_m_min } = stated;
  const windows = chip_load_mm ?? feed_per_rev_mm ?? surface_speed_m_min;
  return {
    character: [],
    kc_scatter: 0.2,
    speed_m_min: {},
    tempers: [],
    ...base,
    ...(kc === undefined ? {} : { kc_reference_rake_deg: undefined }),
    id: name,
    name: base === undefined ? name : `${name} (${base.name})`,
    designations: [name, ...(stated.called ?? [])].map(text => ({ system: 'crib', text, near: false })),
    kc11_n_mm2: kc ?? base?.kc11_n_mm2,
    mc: figure('mc', stated.mc) ?? base?.mc,
    density_kg_m3: figure('density_kg_m3', stated.density_kg_m3) ?? base?.density_kg_m3,
    hardness: hardness === undefined ? base?.hardness : { ...hardness, source },
    behaviour: stated.note ?? base?.behaviour,
    own:
      windows === undefined
        ? base?.own
        : { chip_load_mm, feed_per_rev_mm, surface_speed_m_min, source: source.text },
  };
}

function baseOf(
  same_as: string | undefined,
  known: readonly Material[],
  report: (why: string) => void,
): Material | undefined {
  if (same_as === undefined) return undefined;
  const found = findMaterial(same_as, { materials: known });
  if (found.kind === 'found') return found.material;
  report(found.why);
  return undefined;
}
