import { KIND, type Reading, RUN } from '../rs274/index.ts';
import {
  type MachineKnown,
  type ToolKnown,
  type ToolReading,
  toolComments,
  toolsOf,
} from '../setup/index.ts';
import { bareComment } from './comment-text.ts';
import type { Knowledge } from './knowledge.ts';
import type { Part } from './part.ts';
import { commentsOf } from './program-comments.ts';

/** What stands beside the program and how it is read. */
interface Beside {
  knowledge: Knowledge;
  known: MachineKnown;
  units: 'inch' | 'mm' | undefined;
  kind: 'mill' | 'lathe' | undefined;
}

interface Said {
  line: number;
  text: string;
}

interface Change {
  line: number;
  tool: number;
}

interface Held {
  said: readonly Said[];
  changes: readonly Change[];
  units: Beside['units'];
  kind: Beside['kind'];
  read: Map<number, ToolReading>;
}

/** What tools were put together from, and what came of it. */
interface Made {
  sources: readonly unknown[];
  numbers: readonly number[];
  tools: Map<number, ToolKnown>;
}

/** Comments that are read for tools. */
const COMMENTS_READ = 5000;
const CHANGE = 1 << KIND.toolchange;

const held = new WeakMap<Reading, Held>();
const made = new WeakMap<Reading, Made>();

/** What is known of each tool that the program calls: sheet, cribs, machine and comments put together. */
export function knownTools(reading: Reading, parts: readonly Part[], beside: Beside): Map<number, ToolKnown> {
  const changes = changesOf(parts);
  const numbers = new Set(changes.map(change => change.tool));
  for (const part of parts) {
    const number = part.run[RUN.tool];
    if (number >= 0) numbers.add(number);
  }
  const { knowledge, kind, known } = beside;
  const comments = readComments(reading, changes, beside);
  // The machine follows from these too.
  const sources = [knowledge.sheet, knowledge.cribs, knowledge.machine, kind, comments];
  const before = made.get(reading);
  const tools = [...numbers];
  if (before && sameList(before.sources, sources, Object.is) && sameList(before.numbers, tools, Object.is))
    return before.tools;
  const { sheet, cribs } = knowledge;
  const result = toolsOf({ tools, sheet, cribs, comments, machine: known });
  made.set(reading, { sources, numbers: tools, tools: result });
  return result;
}

/** Reads the comments for tools; while neither they nor the tool changes moved, what was read before. */
function readComments(
  reading: Reading,
  changes: readonly Change[],
  { units, kind }: Beside,
): Map<number, ToolReading> {
  const said = commentsOf(reading, COMMENTS_READ).map(({ line, text }) => ({ line: line + 1, text }));
  const before = held.get(reading);
  if (
    before !== undefined &&
    before.units === units &&
    before.kind === kind &&
    sameList(before.said, said, (a, b) => a.line === b.line && a.text === b.text) &&
    sameList(before.changes, changes, (a, b) => a.line === b.line && a.tool === b.tool)
  )
    return before.read;
  const read = toolComments(
    said.map(({ line, text }) => ({ line, text: bareComment(text) })),
    changes.map(change => ({ line: change.line + 1, tool: change.tool })),
    { units, machine: kind },
  );
  held.set(reading, { said, changes, units, kind, read });
  return read;
}

function sameList<T>(a: readonly T[], b: readonly T[], same: (a: T, b: T) => boolean): boolean {
  return a.length === b.length && a.every((item, index) => same(item, b[index]));
}

/** Where the program changes tools, from the parts that hold a tool change. */
function changesOf(parts: readonly Part[]): Change[] {
  return parts
    .filter(part => part.kinds & CHANGE && part.run[RUN.tool] >= 0)
    .map(part => ({ line: part.first_line, tool: part.run[RUN.tool] }));
}
