import type { FormatKind } from './format-kinds.ts';

/** One quantity as explanations, hovers and machine-readable output name it. */
export interface Quantity {
  /** What people call it. */
  readonly title: string;
  /** Unit of the number in machine-readable output. */
  readonly unit: string;
  readonly formula: string;
  readonly means: string;
  readonly range: string;
  readonly source: string;
  readonly format: FormatKind;
}
