import { type Block, L } from './block.ts';
import { tipOfReport } from './compensation/nose.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { ToolOffsets } from './tool-offsets.ts';

/**
 * G10 that writes a radius or a tip direction of a tool: L1, L10, L11 of the report's successor (P tool, R radius, Q
 * orientation; from memory), L12 and L13 of other controls (radius and its wear), and the lathe form without L (P offset,
 * R nose radius, Q tip direction; numbers over 10000 are geometry). Other than `ngc`: common practice, no source.
 */
export function executeToolData(machine: Machine, block: Block, kind: number): void {
  const { state } = machine;
  const lathe = Number.isNaN(kind);
  const number = lathe ? block.number(L.P) % 10_000 : block.number(L.P);
  if (!(number > 0)) return;
  const report_kind = machine.report && (kind === 1 || kind === 10 || kind === 11);
  if (!report_kind && !lathe && kind !== 12 && kind !== 13) return;
  const offsets = state.offsets ?? new ToolOffsets();
  const at = block.index(L.R);
  const radius_mm = at < 0 ? Number.NaN : Math.abs(machine.length(block, at));
  let next = offsets;
  if (at >= 0 && kind === 13) next = next.with(number, { wear_mm: machine.length(block, at) });
  else if (at >= 0) {
    const before = state.v[S.distance] === 91 && !machine.report ? offsets.get(number).radius_mm : 0;
    next = next.with(number, { radius_mm: before + radius_mm });
    if (kind === 12) {
      machine.assume(
        'offset-radius',
        'R of G10 L12 is taken as a radius; some controls hold diameters there',
      );
    }
  }
  if (block.has(L.Q) && (lathe || report_kind)) {
    const tip = block.number(L.Q);
    next = next.with(number, { tip: machine.report ? tipOfReport(tip) : tip });
  }
  state.offsets = next === offsets ? state.offsets : next;
}
