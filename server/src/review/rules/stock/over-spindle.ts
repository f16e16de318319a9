import { curveAt } from '../../../setup/index.ts';
import type { Rule } from '../../rule.ts';
import { shown, toolName } from '../words.ts';
import { percent, watchLoad } from './passes-of-load.ts';
import { assumedWords, onAssumedStock } from './places.ts';

/** Share of the limit from which on it is worth knowing. */
const NEAR = 0.8;

/** Checks the greatest power or torque that a tool's cuts ask for against what the spindle has at that speed. */
export function overSpindle(quantity: 'power_kw' | 'torque_nm'): NonNullable<Rule['tool']> {
  const asked_for = watchLoad(({ program, loads, edge }) => {
    const curve = program.machine?.spindle?.[quantity];
    const limit = curve && curveAt(curve, edge.spindle_rpm);
    return limit ? { load: loads[quantity], limit } : undefined;
  });
  return (use, program, report) => {
    const top = asked_for.of(program, use);
    if (!top || top.share < NEAR) return;
    const over = top.share > 1;
    const asked = shown(program, quantity, top.load);
    const has = shown(program, quantity, top.limit);
    report({
      at: program.blockPlace(top.line),
      severity: over ? 'warning' : 'information',
      message: `${over ? 'May stall the spindle' : 'Near the limit'}: ${toolName(use)} asks for about ${asked}, ${percent(top.share)} of the ${has} that the spindle has here. ${over ? 'Take less depth or width, or feed slower.' : 'A dull tool would take the rest.'}${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  };
}
