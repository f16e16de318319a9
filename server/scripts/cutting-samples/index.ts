import { FORCE_SAMPLES } from './force.ts';
import { MILLING_SAMPLES } from './milling.ts';
import type { Samples } from './sample.ts';
import { SHOP_SAMPLES } from './shop.ts';

/** Typical arguments of every function of the cutting library: worked examples of its pages, and the start of the property test. */
export const CUTTING_SAMPLES: Samples = { ...MILLING_SAMPLES, ...FORCE_SAMPLES, ...SHOP_SAMPLES };
export { OneOf, type Sample, typical } from './sample.ts';
