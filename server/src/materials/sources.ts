/** How a figure is known: printed and seen, recalled from memory, worked out from neighbours, or only said in the trade. */
export type HowKnown = 'seen' | 'memory' | 'estimate' | 'practice' | 'stated';

/** Where a figure comes from. */
export interface Source {
  readonly key: string;
  /** Plain text, fit to be shown. */
  readonly text: string;
  readonly how: HowKnown;
}

const texts = {
  'handbook-hss': ["Machinery's Handbook, speed tables for high-speed steel", 'seen'],
  'handbook-recalled': ["Machinery's Handbook, speed tables, from memory", 'memory'],
  'handbook-drill-feeds': [
    "Machinery's Handbook, feeds for drills; share by material class estimated",
    'seen',
  ],
  'handbook-reaming': ["Machinery's Handbook, speeds for drilling and reaming", 'seen'],
  'military-manual': ['US manual TM 43-0106, table 2-8, turning', 'seen'],
  'engineers-data': ["Carvill, Mechanical Engineer's Data Handbook, 5.4 and 5.7", 'seen'],
  'kienzle-tables': ['Kienzle values of König and Essel as reprinted in handbooks, from memory', 'memory'],
  'kienzle-quoted': ['Dietrich and Tschätsch, Praxis der Zerspantechnik, value seen quoted', 'seen'],
  textbooks: ['common textbook range (Kalpakjian and Schmid; Groover), from memory', 'memory'],
  standards: ['product standards and general materials data, from memory', 'memory'],
  estimate: ['estimate from neighbouring grades of the group', 'estimate'],
  practice: ['common practice, no source', 'practice'],
  'drill-guides': ['deep-hole table of drilling guides', 'seen'],
  'min-chip-usual': [
    'literature range 0.14 to 0.43 (Cheng et al. 2018); the band is an estimate',
    'estimate',
  ],
  'min-chip-ductile': [
    'literature range 0.14 to 0.43 (Cheng et al. 2018); upper part for ductile metal: estimate',
    'estimate',
  ],
  'min-chip-short': [
    'literature range 0.14 to 0.43 (Cheng et al. 2018); lower part for short chips: estimate',
    'estimate',
  ],
} as const satisfies Record<string, readonly [string, HowKnown]>;

export type SourceKey = keyof typeof texts;

/** Looks a source up by its key; undefined when there is none, and then the figure does not load. */
export function sourceOf(key: string | undefined): Source | undefined {
  if (key === undefined || !Object.hasOwn(texts, key)) return undefined;
  const [text, how] = texts[key as SourceKey];
  return { key, text, how };
}

/** A source of the built-in list. */
export function knownSource(key: SourceKey): Source {
  return { key, text: texts[key][0], how: texts[key][1] };
}
