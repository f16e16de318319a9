import { RUN } from '../../rs274/steps.ts';
import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';

/** True when two or more tools all have their offset the same way from their number, and not at it: a habit of the shop. */
export function isHabit(uses: readonly ToolUse[], field: 'length_offset' | 'radius_offset'): boolean {
  const shifts: number[] = [];
  for (const use of uses) {
    const part = use.parts.find(
      p =>
        p.cut_steps > 0 &&
        p.run[RUN[field]] > 0 &&
        (field === 'length_offset' || p.run[RUN.compensation] !== 40),
    );
    if (part) shifts.push(part.run[RUN[field]] - use.number);
  }
  return shifts.length >= 2 && shifts[0] !== 0 && shifts.every(shift => shift === shifts[0]);
}

/** The offset number that a tool should have, and whether a person said so: tool entry, then the machine's rule, then the tool number. */
export function expectedOffset(
  program: Program,
  use: ToolUse,
  letter: 'H' | 'D',
): { value: number; stated: boolean } {
  const own = letter === 'H' ? use.tool?.length_offset : use.tool?.radius_offset;
  if (own) return { value: own.value, stated: true };
  const rules = program.machine?.offset_rules;
  const list = rules && ('value' in rules ? rules.value : undefined);
  const rule = list?.find(each => each?.letter === letter);
  if (!rule) return { value: use.number, stated: false };
  return { value: rule.is === 'fixed' ? rule.number : use.number + rule.number, stated: true };
}
