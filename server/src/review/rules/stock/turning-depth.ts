import { decodeInsert } from '../../../cutting/designation-insert.ts';
import { isAbsent } from '../../../cutting/result.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { ToolUse } from '../../tool-use.ts';

/** Deepest cut along the bar of a turning tool, and its least over a length. */
export interface TurningDepth {
  deepest: { line: number; depth_mm: number } | undefined;
  shallow: { line: number; depth_mm: number } | undefined;
}

/** Way along Z that counts as a pass, mm. */
const PASS_MM = 2;

/** Depths of cut of turning tools and boring bars, of passes along the bar and across its face. */
export const turningDepths = watchSteps<TurningDepth>(use => {
  if (!turns(use)) return undefined;
  const found: TurningDepth = { deepest: undefined, shallow: undefined };
  return {
    see({ step, lathe, cuts, trusted, line }) {
      if (!cuts || !trusted || !lathe) return;
      const way = Math.hypot(step.x - step.x0, step.z - step.z0);
      const along = Math.abs(step.z - step.z0) > 0.9 * way;
      const depth_mm = lathe.depth_mm;
      if (way < PASS_MM || !(depth_mm > 0.005)) return;
      if (depth_mm > (found.deepest?.depth_mm ?? 0)) found.deepest = { line, depth_mm };
      // a pass that meets metal only here and there is no light pass
      const steady = Math.abs(lathe.to_z_mm - lathe.from_z_mm) > 0.8 * Math.abs(step.z - step.z0);
      if (along && steady && depth_mm < (found.shallow?.depth_mm ?? Number.POSITIVE_INFINITY))
        found.shallow = { line, depth_mm };
    },
    result: () => found,
  };
});

export function turns({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return kind === 'turn' || kind === 'bore-bar';
}

/** Length of the insert's edge, mm; undefined when the insert is not stated or not known. */
export function edgeLength({ tool }: ToolUse): number | undefined {
  const text = tool?.insert?.value;
  const facts = text === undefined ? undefined : decodeInsert(text);
  if (!facts || isAbsent(facts) || isAbsent(facts.edge_length_mm)) return undefined;
  return facts.edge_length_mm;
}
