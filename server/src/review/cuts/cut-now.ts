import { isConfirmed } from '../../setup/index.ts';
import type { Cuts, Program } from '../program.ts';
import { turnPlan } from './lathe-cuts.ts';
import { lathePlan } from './lathe-plan.ts';
import { cutPlan } from './mill-cuts.ts';
import { millPlan } from './plan.ts';

/** True when enough is known to work the stock out: a sheet, and a tool that a person stated; where nothing cuts, the stock too. */
export function canCut(program: Program): boolean {
  if (!program.sheet || program.kind === undefined) return false;
  const stated = program.sheet.workpiece?.stock !== undefined;
  return program.uses.some(use => {
    const size = use.tool?.diameter_mm ?? use.tool?.nose_radius_mm ?? use.tool?.width_mm;
    return (use.cuts || stated) && size !== undefined && isConfirmed(size.origin);
  });
}

/** Works the stock out at once; undefined where too little is known to try, a reason where it cannot be done. */
export function cutNow(program: Program): Cuts | { why: string } | undefined {
  if (!canCut(program)) return undefined;
  if (program.kind === 'lathe') {
    const plan = lathePlan(program);
    return 'why' in plan ? plan : turnPlan(program, plan);
  }
  const plan = millPlan(program);
  return 'why' in plan ? plan : cutPlan(plan);
}
