export const EXPLAINED = ['finding', 'problem', 'quantity', 'code', 'letter', 'key', 'word'] as const;
export type Explained = (typeof EXPLAINED)[number];

/** What one name stands for, in parts that every surface writes its own way. */
export interface Explanation {
  kind: Explained;
  /** As people write it: `chip-load-low`, `chip_load_mm`, `G83`, `tools.*.diameter`. */
  name: string;
  title: string;
  /** Other ways to ask for it. */
  also: readonly string[];
  parts: readonly ExplanationPart[];
}

export interface ExplanationPart {
  /** `means`, `formula`, `what to do`, `source`. */
  label: string;
  text: string;
  /** Program text or JSON: written as such. */
  code?: boolean;
}

/** Parts without those that have no text. */
export function partsOf(
  rows: readonly (readonly [label: string, text: string | undefined, code?: boolean])[],
): ExplanationPart[] {
  return rows.flatMap(([label, text, code]) => (text ? [{ label, text, ...(code ? { code } : {}) }] : []));
}
