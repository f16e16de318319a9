import { formatQuantity } from '../../cutting/format.ts';
import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';

/** The word that limits the spindle under constant surface speed, by dialect. */
export function clampWord(dialect: string): string {
  if (dialect === 'lathe-a') return 'G50 S';
  if (dialect === 'ngc') return 'D with the G96, as in G96 D2500';
  return 'G92 S';
}

/** `T3` or, for lathes without a number, `this tool`. */
export function toolName(use: ToolUse): string {
  return use.number >= 0 ? `T${use.number}` : 'this tool';
}

/** A quantity with its unit, as the person sees numbers. */
export function shown(program: Program, name: Parameters<typeof formatQuantity>[0], value: number): string {
  return formatQuantity(name, value, program.shown);
}
