import { knownSource } from './sources.ts';
import { isTurningTool } from './tool-kind.ts';
import type { SetupForWindow, WindowRange, WindowRequest, WindowStep } from './window-request.ts';

/**
 * Narrows a window from above by what the setup weakens: long stickout, a weak grip, a worn edge, runout.
 *
 * Factors are common practice, no source. The high end never falls under the low end; a step says when it is held there. Longer
 * stickout, weaker grip, duller tool or more runout never raise the high end. What was proven here is left as it is. Units: those of
 * the window; runout in mm on top of one tooth's chip, so `teeth` says how many share a feed per revolution.
 */
export function narrow(
  range: WindowRange,
  on: 'feed' | 'speed',
  request: WindowRequest,
  teeth?: number,
): WindowRange {
  const setup = request.setup;
  if (setup === undefined || range.basis === 'proven') return range;
  const wanted =
    on === 'feed'
      ? feedSteps(setup, request, teeth === undefined ? undefined : range.high / teeth)
      : speedSteps(setup, request);
  if (wanted.length === 0) return range;
  let high = range.high;
  const steps: WindowStep[] = [...range.steps];
  for (const step of wanted) {
    const next = Math.max(range.low, high * step.factor);
    const held = next > high * step.factor;
    steps.push(
      held ? { ...step, why: `${step.why}, held at the low end`, factor: high > 0 ? next / high : 1 } : step,
    );
    high = next;
  }
  return { ...range, high, steps };
}

function feedSteps(
  setup: SetupForWindow,
  request: WindowRequest,
  high_per_tooth_mm: number | undefined,
): WindowStep[] {
  const steps: WindowStep[] = [];
  const stickout = stickoutRatio(setup, request);
  if (stickout !== undefined)
    add(steps, `stickout ${stickout.toFixed(1)} x D`, pick(stickout, [1, 0.9, 0.8, 0.65]));
  if (setup.grip === 'fair') add(steps, 'grip fair', 0.9);
  if (setup.grip === 'weak') add(steps, 'grip weak', 0.75);
  if (setup.wear === 'dull') add(steps, 'tool dull', 0.8);
  const runout = setup.runout_mm;
  const turns = !isTurningTool(request.kind) && request.kind !== 'bore';
  if (runout !== undefined && runout > 0 && turns && high_per_tooth_mm !== undefined) {
    const factor = Math.max(0, 1 - runout / high_per_tooth_mm);
    add(steps, `runout ${Number(runout.toFixed(4))} mm comes on top of one tooth's chip`, factor);
  }
  return steps;
}

function speedSteps(setup: SetupForWindow, request: WindowRequest): WindowStep[] {
  const steps: WindowStep[] = [];
  const stickout = stickoutRatio(setup, request);
  if (stickout !== undefined)
    add(steps, `stickout ${stickout.toFixed(1)} x D`, pick(stickout, [1, 1, 0.9, 0.8]));
  if (setup.grip === 'weak') add(steps, 'grip weak', 0.8);
  if (setup.wear === 'dull') add(steps, 'tool dull', 0.85);
  return steps;
}

function add(steps: WindowStep[], why: string, factor: number): void {
  if (factor < 1) steps.push({ why: `${why} (${knownSource('practice').text})`, factor, end: 'high' });
}

/** Stickout over diameter where that is a measure of stiffness: rotating tools, and boring bars by their own diameter. */
function stickoutRatio(setup: SetupForWindow, request: WindowRequest): number | undefined {
  const { diameter_mm, kind } = request;
  const slender = !isTurningTool(kind) || kind === 'bore-bar';
  if (!slender || setup.stickout_mm === undefined || diameter_mm === undefined || !(diameter_mm > 0))
    return undefined;
  // A drill is long by nature: its depth is counted by the deep-hole table.
  if (kind === 'drill' || kind === 'reamer' || kind === 'tap') return undefined;
  const ratio = setup.stickout_mm / diameter_mm;
  return Number.isFinite(ratio) ? ratio : undefined;
}

function pick(ratio: number, factors: readonly [number, number, number, number]): number {
  if (ratio <= 3) return factors[0];
  if (ratio <= 4) return factors[1];
  return ratio <= 5 ? factors[2] : factors[3];
}
