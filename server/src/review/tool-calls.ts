import { KIND, type Reading, RUN, type StepTable, type Stretch } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { RUN_WIDTH } from '../rs274/steps.ts';
import type { Part } from './part.ts';

/** Where a tool is changed, 0-based line. */
export interface ToolChange {
  line: number;
  tool: number;
}

/** The tools that moves are made with, -1 for none, and where they are changed. */
interface Calls {
  readonly tools: readonly number[];
  readonly changes: readonly ToolChange[];
}

const CHANGE = 1 << KIND.toolchange;
const held = new Slot<Stretch, Calls>();

/** Tools that a program calls, each once, and where it changes them, in order; tools that nobody named are left out. */
export function toolCalls(reading: Reading): Calls {
  const tools = new Set<number>();
  const changes: ToolChange[] = [];
  for (const [index, stretch] of reading.stretches.entries()) {
    const calls = callsOf(stretch);
    for (const tool of calls.tools) if (tool >= 0) tools.add(tool);
    for (const { line, tool } of calls.changes)
      if (tool >= 0) changes.push({ line: line + reading.firstLine(index), tool });
  }
  return { tools: [...tools], changes };
}

/** Notes the calls of a stretch while its steps are at hand; `parts` are theirs. */
export function noteCalls(stretch: Stretch, steps: StepTable, parts: readonly Part[]): void {
  const changes = parts.some(part => part.kinds & CHANGE) ? changesIn(steps) : NO_CHANGES;
  const tools = new Set<number>();
  for (const { tool } of parts) tools.add(tool);
  held.set(stretch, { tools: [...tools], changes });
}

/**
 * Whether a program calls the same tools at the same lines, with the same comments, as it did when its stretches were
 * `before`. False where that cannot be told from the stretches that an edit put in the place of others.
 */
export function sameCalls(reading: Reading, before: readonly Stretch[]): boolean {
  const { stretches, kept } = reading;
  if (stretches === before) return true;
  if (!reading.ordered || kept.from !== before) return false;
  const { head, tail } = kept;
  const old = plainLines(before, head, before.length - tail);
  const now = plainLines(stretches, head, stretches.length - tail);
  return old.lines >= 0 && old.lines === now.lines && Object.is(old.tool, now.tool);
}

/** False where the lines from `from` to `to` surely change no tool: asked before every hint, so it looks at stretches only. */
export function mayChangeTool(reading: Reading, from: number, to: number): boolean {
  const { stretches } = reading;
  if (!reading.ordered || stretches.length === 0) return true;
  const first = reading.stretchOfLine(Math.max(0, from));
  const last = reading.stretchOfLine(Math.max(0, to));
  // The tool before the first line must be the same.
  return first === 0 || Number.isNaN(oneTool(stretches, first - 1, last + 1));
}

function callsOf(stretch: Stretch): Calls {
  let calls = held.get(stretch);
  if (calls === undefined) {
    const { run, runs, count } = stretch.steps;
    const tools = new Set<number>();
    for (let i = 0; i < count; i++) tools.add(toolOf(runs, run[i]));
    calls = { tools: [...tools], changes: changesIn(stretch.steps) };
    held.set(stretch, calls);
  }
  return calls;
}

const NO_CHANGES: readonly ToolChange[] = [];

function changesIn({ kind, line, run, runs, count }: StepTable): readonly ToolChange[] {
  const changes: ToolChange[] = [];
  for (let i = 0; i < count; i++)
    if (kind[i] === KIND.toolchange) changes.push({ line: line[i], tool: toolOf(runs, run[i]) });
  return changes;
}

function toolOf(runs: Float64Array, row: number): number {
  const tool = runs[row * RUN_WIDTH + RUN.tool];
  return tool >= 0 ? tool : -1;
}

/** The one tool that some stretches work with and do not change; NaN where they have none, or more. */
function oneTool(stretches: readonly Stretch[], from: number, to: number): number {
  let tool = Number.NaN;
  for (let at = from; at < to; at++) {
    const { tools, changes } = callsOf(stretches[at]);
    if (tools.length !== 1 || changes.length > 0 || (at > from && tools[0] !== tool)) return Number.NaN;
    tool = tools[0];
  }
  return tool;
}

/** How many lines some stretches have, and their one tool; -1 lines where one holds a comment. */
function plainLines(
  stretches: readonly Stretch[],
  from: number,
  to: number,
): { lines: number; tool: number } {
  const tool = oneTool(stretches, from, to);
  let lines = Number.isNaN(tool) ? -1 : 0;
  for (let at = from; at < to && lines >= 0; at++) {
    const { chunk, lineCount } = stretches[at];
    lines = chunk?.comment_lines?.length === 0 ? lines + lineCount : -1;
  }
  return { lines, tool };
}
