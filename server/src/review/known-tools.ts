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

/** Comments that are read for tools. */
const COMMENTS_READ = 5000;
const CHANGE = 1 << KIND.toolchange;

const held = new WeakMap<Reading, Held>();

/** What is known of each tool that the program calls: sheet, cribs, machine and comments put together. */
export function knownTools(reading: Reading, parts: readonly Part[], beside: Beside): Map<number, ToolKnown> {
  const changes = changesOf(parts);
  const numbers = new Set(changes.map(change => change.tool));
  for (const part of parts) {
    const number = part.run[RUN.tool];
    if (number >= 0) numbers.add(number);
  }
  return toolsOf({
    tools: [...numbers],
    sheet: beside.knowledge.sheet,
    cribs: beside.knowledge.cribs,
    comments: readComments(reading, changes, beside),
    machine: beside.known,
  });
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
