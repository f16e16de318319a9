import type { Absent, Estimate } from '../cutting/result.ts';
import { absent } from '../cutting/result.ts';
import type { Material } from './material.ts';

/** What a force needs of the material. */
export interface ForceFigures {
  /** Specific cutting force at a chip of 1 mm by 1 mm, N/mm², with the spread between sources. */
  readonly kc11_n_mm2: Estimate;
  readonly mc: number;
  /** Rake that kc1.1 is tabled for, degrees; undefined when not known, and then no rake correction may be made. */
  readonly reference_rake_deg?: number;
}

/**
 * The Kienzle figures of a material: kc = kc1.1 h^-mc. Range: the spread of 20 % between sources, 25 % for estimated figures.
 * Absent, with what is missing, for materials without figures.
 */
export function forceFigures(material: Material | undefined): ForceFigures | Absent {
  if (material === undefined) return absent('material not known', ['material']);
  const { kc11_n_mm2: kc, mc, kc_scatter, kc_reference_rake_deg } = material;
  if (kc === undefined || mc === undefined) {
    const missing = [...(kc === undefined ? ['kc11_n_mm2'] : []), ...(mc === undefined ? ['mc'] : [])];
    return absent(`no force figures for ${material.name}`, missing);
  }
  const { value } = kc;
  return {
    kc11_n_mm2: {
      value,
      low: value * (1 - kc_scatter),
      high: value * (1 + kc_scatter),
      basis: kc.source.text,
    },
    mc: mc.value,
    reference_rake_deg: kc_reference_rake_deg,
  };
}
