import { KIND } from '../rs274/steps.ts';
import type { ToolKnown } from '../setup/tools.ts';
import type { Part } from './part.ts';

/** One stretch of the program during which one tool is in the spindle or in the turret's working place. */
export interface ToolUse {
  /** Tool number; -1 while none was called. */
  readonly number: number;
  /** What is known of the tool; undefined while nothing is. */
  readonly tool: ToolKnown | undefined;
  readonly parts: readonly Part[];
  /** 0-based line of the tool change; the first line of the use when there is none. */
  readonly change_line: number;
  readonly first_line: number;
  readonly last_line: number;
  readonly cuts: boolean;
  readonly cut_length_mm: number;
  readonly cut_min: number;
  readonly rapid_length_mm: number;
  readonly dwell_min: number;
  /** Cutting moves without a time. */
  readonly untimed: number;
}

const CHANGE = 1 << KIND.toolchange;

/** Groups parts into uses of tools. `known` says what is known of a tool number. */
export function toolUses(parts: readonly Part[], known: (tool: number) => ToolKnown | undefined): ToolUse[] {
  const uses: ToolUse[] = [];
  let group: Part[] = [];
  let number = Number.NaN;
  const close = () => {
    if (group.length > 0) uses.push(makeUse(number, group, known));
    group = [];
  };
  for (const part of parts) {
    const { tool } = part;
    if (tool !== number) close();
    number = tool;
    group.push(part);
  }
  close();
  return uses;
}

function makeUse(number: number, parts: Part[], known: (tool: number) => ToolKnown | undefined): ToolUse {
  const sums = { cuts: false, cut_length_mm: 0, cut_min: 0, rapid_length_mm: 0, dwell_min: 0, untimed: 0 };
  let first_line = Number.POSITIVE_INFINITY;
  let last_line = 0;
  for (const part of parts) {
    if (part.first_line < first_line) first_line = part.first_line;
    if (part.last_line > last_line) last_line = part.last_line;
    if (part.cut_steps > 0) sums.cuts = true;
    sums.cut_length_mm += part.cut_length_mm;
    sums.cut_min += part.cut_min;
    sums.rapid_length_mm += part.rapid_length_mm;
    sums.dwell_min += part.dwell_min;
    sums.untimed += part.untimed;
  }
  const change = parts.find(part => part.kinds & CHANGE);
  return {
    number,
    tool: number >= 0 ? known(number) : undefined,
    parts,
    change_line: change ? change.first_line : first_line,
    first_line,
    last_line,
    ...sums,
  };
}
