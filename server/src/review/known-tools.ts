import type { PlacedComment, Reading, Stretch } from '../rs274/index.ts';
import {
  type MachineKnown,
  type ToolKnown,
  type ToolReading,
  toolComments,
  toolsOf,
} from '../setup/index.ts';
import { bareComment } from './comment-text.ts';
import type { Knowledge } from './knowledge.ts';
import { commentsOf } from './program-comments.ts';
import { sameCalls, type ToolChange, toolCalls } from './tool-calls.ts';

/** What stands beside the program and how it is read. */
interface Beside {
  knowledge: Knowledge;
  known: MachineKnown;
  units: 'inch' | 'mm' | undefined;
  kind: 'mill' | 'lathe' | undefined;
}

interface Held {
  said: readonly PlacedComment[];
  changes: readonly ToolChange[];
  units: Beside['units'];
  kind: Beside['kind'];
  read: Map<number, ToolReading>;
}

/** What tools were put together from, and what came of it. */
interface Made {
  beside: readonly unknown[];
  /** The program as it called them. */
  stretches: readonly Stretch[];
  comments: Map<number, ToolReading>;
  numbers: readonly number[];
  tools: Map<number, ToolKnown>;
}

/** Comments that are read for tools. */
const COMMENTS_READ = 5000;

const held = new WeakMap<Reading, Held>();
const made = new WeakMap<Reading, Made>();

/** What is known of each tool that the program calls: sheet, cribs, machine and comments put together. */
export function knownTools(
  reading: Reading,
  { knowledge, known, units, kind }: Beside,
): Map<number, ToolKnown> {
  const { sheet, cribs, machine } = knowledge;
  // What is known of the machine follows from these too.
  const beside = [sheet, cribs, machine, units, kind];
  const { stretches } = reading;
  const before = made.get(reading);
  const same = before !== undefined && sameList(before.beside, beside, Object.is);
  if (same && sameCalls(reading, before.stretches)) {
    before.stretches = stretches;
    return before.tools;
  }
  const { changes, tools: called } = toolCalls(reading);
  const numbers = [...new Set([...changes.map(change => change.tool), ...called])];
  const comments = readComments(reading, changes, units, kind);
  const tools =
    same && before.comments === comments && sameList(before.numbers, numbers, Object.is)
      ? before.tools
      : toolsOf({ tools: numbers, sheet, cribs, comments, machine: known });
  made.set(reading, { beside, stretches, comments, numbers, tools });
  return tools;
}

/** Reads the comments for tools; while neither they nor the tool changes moved, what was read before. */
function readComments(
  reading: Reading,
  changes: readonly ToolChange[],
  units: Beside['units'],
  kind: Beside['kind'],
): Map<number, ToolReading> {
  const said = commentsOf(reading, COMMENTS_READ);
  const before = held.get(reading);
  if (
    before !== undefined &&
    before.units === units &&
    before.kind === kind &&
    sameList(before.said, said, (a, b) => a === b || (a.line === b.line && a.text === b.text)) &&
    sameList(before.changes, changes, (a, b) => a.line === b.line && a.tool === b.tool)
  )
    return before.read;
  const read = toolComments(
    said.map(({ line, text }) => ({ line: line + 1, text: bareComment(text) })),
    changes.map(change => ({ line: change.line + 1, tool: change.tool })),
    { units, machine: kind },
  );
  held.set(reading, { said, changes, units, kind, read });
  return read;
}

function sameList<T>(a: readonly T[], b: readonly T[], same: (a: T, b: T) => boolean): boolean {
  return a.length === b.length && a.every((item, index) => same(item, b[index]));
}
