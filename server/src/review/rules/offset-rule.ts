import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';

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
