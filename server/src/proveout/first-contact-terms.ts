import type { Hardness, Material, ToolKind, WindowBasis } from '../materials/index.ts';
import { isOver40Hrc, isTurningTool } from '../materials/index.ts';
import type { FirstContactWeights } from './first-contact-weights.ts';
import type { RubInput } from './rub-floor.ts';

/** All that is known about how a tool first meets the work. What is undefined is not known. */
export interface FirstContactInput {
  readonly kind: ToolKind;
  /** Basis of the tool's window; undefined when there is none. */
  readonly window?: WindowBasis;
  /** How the tool is known: confirmed by a person (sheet, crib, standing), read from a comment, or not at all. */
  readonly tool: 'confirmed' | 'comment' | 'unknown';
  /** Cutting diameter; of a boring bar the bar's own. */
  readonly diameter_mm?: number;
  readonly stickout_mm?: number;
  /** A boring bar of carbide stands half as much again. */
  readonly carbide_bar?: boolean;
  readonly grip?: 'firm' | 'fair' | 'weak';
  readonly wear?: 'new' | 'used' | 'dull';
  readonly material?: Material;
  /** Hardness stated in the sheet; else the material's own counts. */
  readonly hardness?: Hardness;
  /** Skin of the blank; else a cast material is taken to have its skin on. */
  readonly skin?: 'cast' | 'forged' | 'none';
  readonly entry?: 'partial' | 'full' | 'full-and-deep';
  /** Greatest share of a limit that any load reaches, and which: `power`, `torque`, `deflection`, `holding force`. */
  readonly load?: { readonly share: number; readonly of: string };
  readonly stock?: 'stated' | 'assumed';
  readonly rub?: RubInput;
  /** Title of an error that stands for this tool. */
  readonly error?: string;
  /** The control's step of the feed override, percent. */
  readonly override_step?: number;
  readonly weights?: FirstContactWeights;
}

/** One reason, with the percent points that it takes off. */
export interface FirstContactTerm {
  readonly percent: number;
  readonly why: string;
}

/**
 * The reasons that take something off the start, in the order of the table, and what could not be counted.
 * Percent points; weights are common practice, no source.
 */
export function firstContactTerms(
  input: FirstContactInput,
  weights: FirstContactWeights,
): { readonly terms: readonly FirstContactTerm[]; readonly not_counted: readonly string[] } {
  const terms: FirstContactTerm[] = [];
  const not_counted: string[] = [];
  const take = (percent: number, why: string) => {
    if (percent > 0) terms.push({ percent, why });
  };

  const basis = input.window ?? 'none';
  const windowWords = {
    proven: 'proven here',
    maker: 'from the tool maker',
    handbook: 'from handbook',
    none: 'none',
  };
  take(weights.window[basis], basis === 'none' ? 'no window' : `window ${windowWords[basis]}`);
  take(weights.tool[input.tool], input.tool === 'comment' ? 'tool read from a comment' : 'tool unknown');

  const ratio = stickoutRatio(input);
  if (ratio !== undefined) take(stickoutWeight(ratio, weights), stickoutWords(input, ratio));
  else if (hasStickout(input.kind)) not_counted.push('stickout not known');

  take(
    weights.grip[input.grip ?? 'unknown'],
    input.grip === undefined ? 'grip not known' : `grip ${input.grip}`,
  );
  take(
    weights.wear[input.wear ?? 'unknown'],
    input.wear === undefined ? 'wear not known' : `tool ${input.wear}`,
  );
  const material = materialReason(input);
  if (material !== undefined) take(weights.material, material);

  if (input.entry === undefined) not_counted.push('first entry: stock not known');
  else {
    const words = {
      partial: '',
      full: 'first entry full width',
      'full-and-deep': 'first entry full width and over 1 x D deep',
    };
    take(weights.entry[input.entry], words[input.entry]);
  }
  if (input.load === undefined) not_counted.push('loads: stock not known');
  else if (input.load.share > 0.7)
    take(weights.load, `${input.load.of} at ${Math.round(100 * input.load.share)} % of its limit`);
  if (input.stock === undefined) not_counted.push('stock not stated');
  else if (input.stock === 'assumed') take(weights.stock_assumed, 'stock assumed');
  return { terms, not_counted };
}

function hasStickout(kind: ToolKind): boolean {
  return !isTurningTool(kind) || kind === 'bore-bar';
}

/** Stickout over diameter as it counts: two thirds of it for a carbide boring bar. */
function stickoutRatio(input: FirstContactInput): number | undefined {
  const { stickout_mm, diameter_mm, kind } = input;
  if (!hasStickout(kind) || stickout_mm === undefined || diameter_mm === undefined || !(diameter_mm > 0))
    return undefined;
  const ratio = stickout_mm / diameter_mm;
  if (!Number.isFinite(ratio)) return undefined;
  return isBar(kind) && input.carbide_bar === true ? (ratio * 2) / 3 : ratio;
}

function isBar(kind: ToolKind): boolean {
  return kind === 'bore-bar' || kind === 'bore';
}

function stickoutWeight(ratio: number, weights: FirstContactWeights): number {
  // A stickout typed in inches comes back with a last-digit error: 1.5 in on 1/2 in is 3, not a hair over.
  const slack = 1e-9;
  if (ratio <= 3 + slack) return 0;
  if (ratio <= 4 + slack) return weights.stickout.to4;
  return ratio <= 5 + slack ? weights.stickout.to5 : weights.stickout.over5;
}

function stickoutWords(input: FirstContactInput, ratio: number): string {
  const carbide = isBar(input.kind) && input.carbide_bar === true;
  return `stickout ${ratio.toFixed(1)} x D${carbide ? ' (carbide bar, two thirds)' : ''}`;
}

function materialReason(input: FirstContactInput): string | undefined {
  const { material } = input;
  if (material === undefined) return 'material not known';
  if (material.character.includes('work-hardening')) return `${material.name} work-hardens`;
  if (material.character.includes('titanium')) return 'titanium';
  const hardness = input.hardness ?? material.hardness;
  if (hardness !== undefined && isOver40Hrc(hardness)) return 'over 40 HRC';
  const skin = input.skin ?? (material.character.includes('cast-skin') ? 'cast' : 'none');
  return skin === 'none' ? undefined : `${skin} skin`;
}
