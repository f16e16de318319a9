import type { Seen } from '../../cuts/step-scan.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { ToolUse } from '../../tool-use.ts';
import { effectiveTeeth } from '../../working.ts';

/** A step where a load stands highest against its limit. */
export interface LoadPlace {
  line: number;
  /** Load over its limit. */
  share: number;
  load: number;
  limit: number;
  spindle_rpm: number;
}

/** Share of its greatest engagement that a cut keeps up on the mean where its load lasts. */
const LASTS = 0.6;

/**
 * Watches for the cut where a load is highest against its limit. Only loads that last count: an instant in a corner is
 * carried by the mass of the spindle.
 */
export function watchLoad(measure: (step: Seen) => { load: number; limit: number } | undefined) {
  return watchSteps<LoadPlace | undefined>(() => {
    let top: LoadPlace | undefined;
    return {
      see(step) {
        if (!step.cuts || !step.trusted) return;
        const { mill } = step;
        if (mill && mill.mean_engagement_deg < LASTS * mill.engagement_deg) return;
        const found = measure(step);
        if (!found || !(found.limit > 0) || !(found.load > 0)) return;
        const share = found.load / found.limit;
        if (top && share <= top.share) return;
        top = { line: step.line, share, ...found, spindle_rpm: step.edge.spindle_rpm };
      },
      result: () => top,
    };
  });
}

/** Teeth that stand in the cut at once, at least one; NaN when the tooth count is not known. */
export function teethAtOnce(step: Seen): number {
  const teeth = effectiveTeeth(step.use.tool);
  if (teeth === undefined) return Number.NaN;
  const arc = step.mill?.engagement_deg ?? 0;
  return Math.max(1, Math.ceil((teeth * arc) / 360 - 1e-9));
}

/** Percent without decimals. */
export function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** Anything but threads and probes. */
export function hasLoad({ tool }: ToolUse, _program?: Program): boolean {
  const kind = tool?.kind?.value;
  return kind !== 'tap' && kind !== 'thread-mill' && kind !== 'thread-turn' && kind !== 'probe';
}
