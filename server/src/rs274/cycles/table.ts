/** Families of mill cycles by the shape of their body. */
export type MillCycleFamily = 'drill' | 'peck' | 'chip-break' | 'bore' | 'back-bore' | 'fine-bore' | 'tap';

/** One mill cycle: what it is and which words the report wants. */
export interface MillCycle {
  readonly name: string;
  readonly family: MillCycleFamily;
  /** Words without which NISTIR 6556 refuses the cycle, besides R and Z. */
  readonly needs: readonly ('p' | 'q' | 'i' | 'j' | 'k')[];
  /** Direction that the spindle must turn in: 1 clockwise, -1 counter-clockwise, 0 either but turning. */
  readonly spindle?: 1 | -1 | 0;
}

/**
 * Mill cycles by ten times their G number (G83 = 830, G84.2 = 842).
 * Source: NISTIR 6556 section 3.5.16 (G81 to G89); G73, G74, G76, G84.2, G84.3: common practice, no source.
 */
export const MILL_CYCLES: Readonly<Record<number, MillCycle>> = {
  730: { name: 'chip-breaking drilling', family: 'chip-break', needs: ['q'] },
  740: { name: 'left-hand tapping', family: 'tap', needs: [], spindle: -1 },
  760: { name: 'fine boring', family: 'fine-bore', needs: ['q'], spindle: 0 },
  810: { name: 'drilling', family: 'drill', needs: [] },
  820: { name: 'drilling with dwell', family: 'drill', needs: ['p'] },
  830: { name: 'peck drilling', family: 'peck', needs: ['q'] },
  840: { name: 'tapping', family: 'tap', needs: [], spindle: 1 },
  842: { name: 'rigid tapping', family: 'tap', needs: [], spindle: 1 },
  843: { name: 'rigid left-hand tapping', family: 'tap', needs: [], spindle: -1 },
  850: { name: 'boring, feed out', family: 'bore', needs: [] },
  860: { name: 'boring, spindle stop, rapid out', family: 'bore', needs: ['p'], spindle: 0 },
  870: { name: 'back boring', family: 'back-bore', needs: ['i', 'j', 'k'], spindle: 0 },
  880: { name: 'boring, spindle stop, manual out', family: 'bore', needs: ['p'], spindle: 0 },
  890: { name: 'boring with dwell, feed out', family: 'bore', needs: ['p'] },
};

/** Whether a G number (83, 84.2) is a mill cycle of this table. */
export function isMillCycle(code: number): boolean {
  return MILL_CYCLES[Math.round(code * 10)] !== undefined;
}
