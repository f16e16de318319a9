import type { FirstContactInput, FirstContactTerm } from './first-contact-terms.ts';
import { firstContactTerms } from './first-contact-terms.ts';
import { firstContactBand, firstContactWeights } from './first-contact-weights.ts';
import type { RubFloor } from './rub-floor.ts';
import { rubFloor } from './rub-floor.ts';

export type { FirstContactInput, FirstContactTerm } from './first-contact-terms.ts';
export type { FirstContactWeights } from './first-contact-weights.ts';
export { firstContactWeights } from './first-contact-weights.ts';
export type { RubFloor, RubInput } from './rub-floor.ts';
export { rubFloor } from './rub-floor.ts';

/** The feed override to start a tool with, and the sum behind it. */
export interface FirstContact {
  /** Percent of the programmed feed; undefined when there is no number to give, and then `why_not` says so. */
  readonly percent?: number;
  readonly why_not?: string;
  /** Reasons with the percent points that each takes off 70. */
  readonly terms: readonly FirstContactTerm[];
  /** 70 less the terms, before it is held in 50 to 70. */
  readonly sum_percent: number;
  /** Reasons that could not be counted yet, and what is missing. */
  readonly not_counted: readonly string[];
  readonly rub_floor?: RubFloor;
  /** Overrides to step through once the tool cuts, the start first, 100 last; empty without a number. */
  readonly steps_percent: readonly number[];
  /** The whole sum as one line of text. */
  readonly sentence: string;
}

/**
 * Composes the first-contact feed override of a tool.
 *
 * P = 70 less the weights of the reasons, held in 50 to 70, rounded down to the control's override step (default 10). A rub floor,
 * rounded up to the step, stands in where it is higher; over 70 there is no number. None for tapping, threading and probes, none
 * while an error stands for the tool. Percent throughout; spindle as programmed. Source: common practice, no source.
 * Longer stickout, weaker grip or a duller tool never raise the figure. Starting values only.
 */
export function firstContact(input: FirstContactInput): FirstContact {
  const step = usableStep(input.override_step);
  const { terms, not_counted } = firstContactTerms(input, input.weights ?? firstContactWeights);
  const sum = terms.reduce((left, term) => left - term.percent, firstContactBand.high as number);
  const held = Math.min(firstContactBand.high, Math.max(firstContactBand.low, sum));
  const floor = input.rub === undefined ? undefined : rubFloor(input.rub);
  const common = {
    terms,
    sum_percent: sum,
    not_counted,
    ...(floor === undefined ? {} : { rub_floor: floor }),
  };
  const without = (why_not: string): FirstContact => ({
    ...common,
    why_not,
    steps_percent: [],
    sentence: why_not,
  });

  const locked = noOverride(input);
  if (locked !== undefined) return without(locked);
  let percent = Math.floor(held / step + 1e-9) * step;
  const floorStep = floor === undefined ? 0 : Math.ceil(floor.percent / step - 1e-9) * step;
  if (floor !== undefined && floorStep > firstContactBand.high) {
    return without(`do not start this pass low: under ${whole(floor)} the teeth rub; change the program`);
  }
  if (percent <= 0 && floorStep <= 0) return without(`override step ${step} is too coarse to start low`);
  const floored = floorStep > percent;
  if (floored) percent = floorStep;
  const sentence = [sumSentence(terms, sum, held, floored ? undefined : percent)];
  if (floored && floor !== undefined)
    sentence.push(`raised to ${percent}: under ${whole(floor)} the teeth rub`);
  if (floor !== undefined && floor.range_percent[1] > percent) {
    sentence.push(`at the worst edge they rub up to ${Math.ceil(floor.range_percent[1] - 1e-9)} %`);
  }
  return { ...common, percent, steps_percent: stepUp(percent, step), sentence: sentence.join('; ') };
}

/** Overrides from the start up to 100 in the control's steps: 60, 70, 80, 90, 100. */
export function stepUp(start_percent: number, step_percent: number): readonly number[] {
  const steps: number[] = [];
  const step = usableStep(step_percent);
  for (let at = start_percent; at < 100 - 1e-9 && steps.length < 200; at += step) steps.push(at);
  steps.push(100);
  return steps;
}

function noOverride(input: FirstContactInput): string | undefined {
  if (input.kind === 'tap') return 'tapping: the override is locked, run it above the part first';
  if (input.kind === 'thread-turn') return 'threading: the override is locked, run it above the part first';
  if (input.kind === 'probe') return 'a probe does not cut';
  return input.error === undefined ? undefined : `no starting figure while an error stands: ${input.error}`;
}

function usableStep(step: number | undefined): number {
  return step !== undefined && step >= 1 && step <= 100 ? step : 10;
}

function whole(floor: RubFloor): string {
  const [low, high] = floor.range_percent;
  return `${Math.round(floor.percent)} % (${Math.round(low)} to ${Math.round(high)})`;
}

function sumSentence(
  terms: readonly FirstContactTerm[],
  sum: number,
  held: number,
  percent: number | undefined,
): string {
  const parts = terms.map(term => ` - ${number(term.percent)} ${term.why}`).join('');
  const kept = held === sum ? '' : `, held at ${number(held)}`;
  const rounded = percent === undefined || percent === held ? '' : `, rounded down to ${number(percent)}`;
  return `${firstContactBand.high}${parts} = ${number(sum)}${kept}${rounded}`;
}

function number(value: number): string {
  return String(Number(value.toFixed(2)));
}
