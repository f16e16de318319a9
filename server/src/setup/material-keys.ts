import { field, object, type Read, type Spec } from './spec.ts';
import { number, quantity, range, text } from './spec-leaves.ts';

const materialRows = {
  same_as: field('same_as', text(), 'A material that is known already; what stands here wins over it.', {
    example: '"304"',
  }),
  note: field('note', text(), 'What it is and where these figures come from.', {
    example: '"castings from the north foundry"',
  }),
  kc11_n_mm2: field(
    'kc11_n_mm2',
    number({ above: 0, most: 20_000 }),
    'Specific cutting force at 1 mm2 of chip, N/mm2.',
    { example: '2100' },
  ),
  mc: field('mc', number({ least: 0, most: 1 }), 'How the specific cutting force falls with thicker chips.', {
    example: '0.25',
  }),
  surface_speed_m_min: field(
    'surface_speed',
    range(quantity('surface_speed', { above: 0, most: 10_000 })),
    'Lowest and highest cutting speed used here.',
    { example: '[60, 90]' },
  ),
  chip_load_mm: field(
    'chip_load',
    range(quantity('chip_load', { above: 0, most: 10 })),
    'Lowest and highest feed per tooth used here.',
    { example: '[0.03, 0.06]' },
  ),
};

/** A material of the shop. */
export type CribMaterial = Read<typeof materialRows>;

export const materialSpec: Spec<CribMaterial> = object(materialRows);
