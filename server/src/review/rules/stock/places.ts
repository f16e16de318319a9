import type { Seen, StepWatch } from '../../cuts/step-scan.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { ToolUse } from '../../tool-use.ts';
import { shown } from '../words.ts';

/** A place that a rule speaks of: the worst step of one line. */
export interface SeenPlace {
  line: number;
  /** How bad it is; larger is worse. */
  weight: number;
  /** Tip of the tool there, mm. */
  at: readonly [number, number, number];
}

/** Places kept of one use; more are not named. */
const MOST_PLACES = 40;

/**
 * Watches for steps that `weigh` gives a weight over 0 and keeps the worst of each line, in order of the program. `note`
 * adds what the message needs.
 */
export function watchPlaces<T extends object>(
  applies: (use: ToolUse, program: Program) => boolean,
  weigh: (step: Seen) => number,
  note: (step: Seen) => T,
): StepWatch<readonly (SeenPlace & T)[]> {
  return watchSteps<readonly (SeenPlace & T)[]>((use, program) => {
    if (!applies(use, program)) return undefined;
    const byLine = new Map<number, SeenPlace & T>();
    return {
      see(step) {
        const weight = weigh(step);
        if (!(weight > 0)) return;
        const held = byLine.get(step.line);
        if (held ? held.weight >= weight : byLine.size >= MOST_PLACES) return;
        byLine.set(step.line, { line: step.line, weight, at: placeOf(step), ...note(step) });
      },
      result: () => [...byLine.values()],
    };
  });
}

/** The worst of some places; undefined when there is none. */
export function worst<T extends SeenPlace>(places: readonly T[] | undefined): T | undefined {
  let found: T | undefined;
  for (const place of places ?? []) if (!found || place.weight > found.weight) found = place;
  return found;
}

/** Other places as related ones, each with the same words. */
export function others(places: readonly SeenPlace[], but: SeenPlace, message: string) {
  return places.filter(place => place !== but).map(place => ({ line: place.line, message }));
}

function placeOf({ mill, step }: Seen): [number, number, number] {
  if (mill && Number.isFinite(mill.contact_x)) return [mill.contact_x, mill.contact_y, mill.contact_z];
  return [step.x, step.y, step.z];
}

/** `X12. Y3.5 Z-2.` in the units that the person sees. */
export function placeWords(program: Program, at: readonly [number, number, number]): string {
  const inch = program.shown === 'inch';
  const axes = program.kind === 'lathe' ? (['X', 'Z'] as const) : (['X', 'Y', 'Z'] as const);
  return axes
    .map(axis => {
      const own = at['XYZ'.indexOf(axis)];
      const value = program.kind === 'lathe' && axis === 'X' ? 2 * own : own;
      const text = (inch ? value / 25.4 : value).toFixed(inch ? 3 : 2).replace(/\.?0+$/, '');
      return `${axis}${text === '-0' ? '0' : text}`;
    })
    .join(' ');
}

/** A length as the person sees it. */
export function length(program: Program, value_mm: number): string {
  return shown(program, 'length_mm', value_mm);
}

export const onMill = (_use: ToolUse, program: Program): boolean => program.cuts?.kind === 'mill';
export const onLathe = (_use: ToolUse, program: Program): boolean => program.cuts?.kind === 'lathe';

/** `assumed` of a report about the stock. */
export function onAssumedStock(program: Program): { assumed?: true } {
  return program.cuts?.assumed ? { assumed: true } : {};
}

/** Said in a message that rests on a stock nobody stated. */
export function assumedWords(program: Program): string {
  return program.cuts?.assumed ? ' The stock is assumed.' : '';
}
