import { chuckHoldingSafety, viseHoldingSafety } from '../../cutting/holding.ts';
import { isAbsent } from '../../cutting/result.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { Program } from '../program.ts';
import { effectiveTeeth } from '../working.ts';
import { latheStock } from './stock-of.ts';

/** Friction of smooth jaws on metal (0.1 to 0.15, from memory); the better end, so that only clear cases are said. */
export const JAW_FRICTION = 0.15;

/** How hard a cut pushes the part in its grip, and how many times the grip holds that by friction. NaN is not known. */
export interface Holding {
  holding_force_n: number;
  holding_safety: number;
}

/**
 * Push of a cut against friction in the grip. Mill: force of a tooth times the teeth in metal, two jaws; lathe: the force at the
 * radius where the bar is held, Fc r_work / r_bar. A drill turns and lifts the part otherwise: not known.
 */
export function holdingOf(
  program: Program,
  tool: ToolKnown | undefined,
  force_n: number,
  at: { engagement_deg: number; work_radius_mm: number },
): Holding {
  if (tool?.kind?.value === 'drill') return { holding_force_n: Number.NaN, holding_safety: Number.NaN };
  const grip_force_n = program.sheet?.workholding?.force_n?.value;
  if (program.kind === 'lathe') {
    const jaw_radius_mm = barRadius(program);
    const safety = chuckHoldingSafety({
      grip_force_n,
      friction: JAW_FRICTION,
      jaw_radius_mm,
      cutting_force_n: force_n,
      work_radius_mm: at.work_radius_mm,
    });
    return {
      holding_force_n: (force_n * at.work_radius_mm) / (jaw_radius_mm ?? Number.NaN),
      holding_safety: isAbsent(safety) ? Number.NaN : safety,
    };
  }
  const cutting_force_n = force_n * teethAtOnce(tool, at.engagement_deg);
  const safety = viseHoldingSafety({ clamp_force_n: grip_force_n, friction: JAW_FRICTION, cutting_force_n });
  return { holding_force_n: cutting_force_n, holding_safety: isAbsent(safety) ? Number.NaN : safety };
}

/** Part of a tooth that the arc of the stock may be off without another tooth being counted. */
const ARC_SHARE = 0.01;

/** Teeth that stand in the cut at once, at least one; NaN when the tooth count is not known. */
function teethAtOnce(tool: ToolKnown | undefined, engagement_deg: number): number {
  const teeth = effectiveTeeth(tool);
  return teeth === undefined
    ? Number.NaN
    : Math.max(1, Math.ceil((teeth * engagement_deg) / 360 - ARC_SHARE));
}

function barRadius(program: Program): number | undefined {
  const stock = latheStock(program);
  return stock?.shape === 'bar' ? stock.diameter_mm.value / 2 : undefined;
}
