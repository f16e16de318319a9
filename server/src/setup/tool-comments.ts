import type {
  CommentAsides,
  CommentContext,
  CommentDoubt,
  CommentFields,
  CommentReading,
} from './comment-reading.ts';
import { readToolComment } from './tool-comment.ts';
import { operationWords } from './tool-words.ts';

/** One comment of the program: the text between its parentheses, its line, and the rest of its block where that matters. */
export type ProgramComment = { line: number; text: string; code?: string };

/** Where the program names or changes to a tool. */
export type ToolChange = { line: number; tool: number };

/** What comments say of one tool. A field that two comments give differently is in `doubts`, not in `fields`. */
export type ToolReading = {
  number: number;
  /** Each field with the line and text of the comment it was read from. */
  fields: {
    [K in keyof CommentFields]: { value: NonNullable<CommentFields[K]>; line: number; text: string };
  };
  asides: CommentAsides;
  doubts: (CommentDoubt & { line: number })[];
  uncertain: string | undefined;
  /** The comments themselves, in the order of the program. */
  comments: { line: number; text: string }[];
};

/** Stands for the tool of a program that names no tool number. */
export const noToolNumber = -1;

const listLimit = 20_000;

/**
 * Reads the tool comments of a program, by tool. A comment with a tool number is that tool's; one without belongs to the
 * tool change on its line or on the line before or after it; in a program with one tool a comment that calls itself one
 * of a tool is that tool's (`noToolNumber` when the program names none). Operation comments are left alone.
 */
export function toolComments(
  comments: readonly ProgramComment[],
  changes: readonly ToolChange[],
  context: Omit<CommentContext, 'tools'>,
): Map<number, ToolReading> {
  const tools = new Set(changes.map(({ tool }) => tool));
  const only = tools.size === 0 ? noToolNumber : tools.size === 1 ? changes[0]?.tool : undefined;
  const near = changesByLine(changes);
  const readings = new Map<number, ToolReading>();
  for (const group of groups(comments.slice(0, listLimit))) {
    if (only === undefined && !mayMatter(group, near)) continue;
    const read = group.map(comment => ({ comment, reading: readOne(comment, { ...context, tools }) }));
    const numbered = read.find(({ reading }) => reading.number !== undefined)?.reading.number;
    const number = numbered ?? belongsTo(read, near, only);
    if (number === undefined || (tools.size > 0 && !tools.has(number))) continue;
    for (const { comment, reading } of read) merge(readings, number, comment, reading);
  }
  for (const [number, reading] of readings) if (isEmpty(reading)) readings.delete(number);
  return readings;
}

const label =
  /^\s*(?:TOOL(?! ?(?:\d|PATH|CHANGE))|DIA|DIAM|DIAMETER|FLUTES?|TEETH|LENGTH|CORNER|RADIUS|TYPE|LOC|STICK|DESC\w*|MATERIAL|HOLDER|NUMBER OF)\b/i;

/** Comments on lines that follow each other, of which all but the first begin with a label, describe one tool. */
function groups(comments: readonly ProgramComment[]): ProgramComment[][] {
  const result: ProgramComment[][] = [];
  for (const comment of comments) {
    const last = result.at(-1);
    const before = last?.at(-1);
    const follows = last && before && comment.line - before.line <= 1 && last.length < 12;
    if (
      follows &&
      label.test(comment.text) &&
      (label.test(before.text) || /^\s*(?:TOOL|T\d)/i.test(last[0]?.text ?? ''))
    ) {
      last.push(comment);
    } else result.push([comment]);
  }
  return result;
}

function readOne(comment: ProgramComment, context: CommentContext): CommentReading {
  const reading = readToolComment(comment.text, context);
  const macro = /^\s*#\d+\s*=\s*(\d+\.?\d*|\.\d+)\s*\/\s*2\.?\s*$/.exec(comment.code ?? '');
  if (macro && context.units && /RADIUS/i.test(comment.text) && /CUTTER|TOOL/i.test(comment.text)) {
    reading.fields.diameter_mm = Number(macro[1]) * (context.units === 'inch' ? 25.4 : 1);
  }
  return reading;
}

const toolish = /TOOL|(?<![A-Za-z])T\s?[\dOo]/i;

/** In a program with several tools most comments name operations: those are passed over without reading. */
function mayMatter(group: readonly ProgramComment[], near: ReadonlyMap<number, unknown>): boolean {
  return group.some(
    ({ line, text }) => near.has(line) || near.has(line - 1) || near.has(line + 1) || toolish.test(text),
  );
}

type Read = { comment: ProgramComment; reading: CommentReading };

function belongsTo(
  group: readonly Read[],
  near: Map<number, number | 'several'>,
  only: number | undefined,
): number | undefined {
  const first = group[0]?.comment.line ?? 0;
  const last = group.at(-1)?.comment.line ?? 0;
  const sizes = group.some(({ reading: { fields, doubts } }) => hasSize(fields) || doubts.length > 0);
  const kind = group.some(({ reading }) => reading.fields.kind !== undefined);
  const marked = group.some(({ reading }) => reading.marked);
  const operation = !marked && group.some(({ comment }) => operationWords.test(comment.text.toUpperCase()));
  if (operation || !sizes || !(kind || marked)) return undefined;
  for (const line of [first, last, last + 1, first - 1]) {
    const tool = near.get(line);
    if (tool !== undefined) return tool === 'several' ? undefined : tool;
  }
  return only;
}

function hasSize(fields: CommentFields): boolean {
  const { diameter_mm, nose_radius_mm, insert, pitch_mm, width_mm } = fields;
  return [diameter_mm, nose_radius_mm, insert, pitch_mm, width_mm].some(field => field !== undefined);
}

function changesByLine(changes: readonly ToolChange[]): Map<number, number | 'several'> {
  const near = new Map<number, number | 'several'>();
  for (const { line, tool } of changes)
    near.set(line, near.has(line) && near.get(line) !== tool ? 'several' : tool);
  return near;
}

function merge(
  readings: Map<number, ToolReading>,
  number: number,
  { line, text }: ProgramComment,
  reading: CommentReading,
): void {
  const known = readings.get(number) ?? {
    number,
    fields: {},
    asides: {},
    doubts: [],
    uncertain: undefined,
    comments: [],
  };
  readings.set(number, known);
  if (Object.keys(reading.fields).length === 0 && reading.doubts.length === 0) return;
  const copy: Partial<Record<keyof CommentFields, { value: unknown; line: number; text: string }>> =
    known.fields;
  for (const [key, value] of Object.entries(reading.fields)) {
    const name = key as keyof CommentFields;
    const before = copy[name];
    if (known.doubts.some(doubt => doubt.about === name)) continue;
    if (before === undefined) copy[name] = { value, line, text };
    else if (!same(before.value, value) && !sameWithUnit(before.value, value)) {
      delete copy[name];
      known.doubts.push({
        about: name,
        why: `two comments differ (lines ${before.line} and ${line})`,
        choices: [],
        line,
      });
    }
  }
  Object.assign(known.asides, { ...reading.asides, ...known.asides });
  known.doubts.push(
    ...reading.doubts.filter(({ about }) => copy[about] === undefined).map(doubt => ({ ...doubt, line })),
  );
  known.uncertain ??= reading.uncertain;
  known.comments.push({ line, text });
}

function same(a: unknown, b: unknown): boolean {
  return (
    a === b ||
    (typeof a === 'number' &&
      typeof b === 'number' &&
      Math.abs(a - b) <= 0.01 * Math.max(Math.abs(a), Math.abs(b)))
  );
}

/** `4mm` on one line and a bare `4.0` on the next of an inch program are one size: the written unit counts. */
function sameWithUnit(a: unknown, b: unknown): boolean {
  return typeof a === 'number' && typeof b === 'number' && same(a * 25.4, b);
}

function isEmpty({ fields, doubts }: ToolReading): boolean {
  return Object.keys(fields).length === 0 && doubts.length === 0;
}
