import type { Seen } from '../../cuts/step-scan.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import { missingNeed } from '../../needs.ts';
import type { Program } from '../../program.ts';
import type { ToolUse } from '../../tool-use.ts';

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
  return watchSteps<LoadPlace | undefined>((use, program) => {
    if (missingNeed(LOAD_NEEDS, program, use)) return undefined;
    let top: LoadPlace | undefined;
    let heaviest = 0;
    return {
      see(step) {
        if (!step.cuts || !step.trusted) return;
        const { mill } = step;
        if (mill && mill.mean_engagement_deg < LASTS * mill.engagement_deg) return;
        const weight = roughLoad(step);
        if (weight <= heaviest * NOT_MORE) return;
        heaviest = Math.max(heaviest, weight);
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

const LOAD_NEEDS = ['material', 'tool.kind', 'tool.diameter', 'tool.teeth'] as const;
/** A cut that is rougher by less than this is not worked out: the worst is found to one part in fifty. */
const NOT_MORE = 1.02;

/** What loads grow with, cheap to work out: depth, arc, feed per tooth and speed. Not a load. */
export function roughLoad({ mill, lathe, edge }: Seen): number {
  if (lathe) return lathe.depth_mm * edge.feed_per_rev_mm ** 0.75 * edge.surface_speed_m_min;
  if (!mill) return 0;
  return mill.axial_depth_mm * mill.engagement_deg * edge.chip_load_mm ** 0.75 * edge.spindle_rpm;
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
