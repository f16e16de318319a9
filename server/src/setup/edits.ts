import {
  applyEdits,
  type Edit,
  type FormattingOptions,
  findNodeAtLocation,
  getNodeValue,
  type JSONPath,
  modify,
  type Node,
} from 'jsonc-parser';
import { calledKey, calledText, holdsSize } from './called.ts';
import type { SheetProblem } from './problem.ts';
import { parseBounded } from './sheet-text.ts';

/** A change to a text: the stretch that goes, and what comes in its place. */
export type TextEdit = { offset: number; length: number; text: string };

/** Edits of a sheet or crib, or why there are none. The rest of the file, its comments too, stays as it is. */
export type EditResult = { edits: TextEdit[] } | { why: string };

type JsonValue = string | number | boolean | null | JsonValue[] | { [key: string]: JsonValue };

/** Sets one value, making the objects above it where they are missing. An empty text becomes a whole file. */
export function setValue(text: string, path: readonly (string | number)[], value: JsonValue): EditResult {
  if (path.length === 0) return { why: 'a key is needed' };
  const problems: SheetProblem[] = [];
  const tree = parseBounded(text, problems);
  if (problems.length > 0) return { why: `the file is not JSON: ${problems[0]?.message ?? ''}` };
  if (tree && tree.type !== 'object') return { why: 'the file is not an object in braces' };
  const blocked = blockedAt(tree, path);
  if (blocked !== undefined) return { why: `"${blocked}" is not an object` };
  const start = tree ? text : `${text}{}\n`;
  const edits = modify(start, jsonPath(path), value, { formattingOptions: formattingOf(text) });
  return tree
    ? { edits: edits.map(fromLibrary) }
    : { edits: [{ offset: 0, length: text.length, text: applyEdits(start, edits) }] };
}

/** Adds a tool to a sheet, or the missing keys to one that is there; never changes a value that is there. */
export function addTool(text: string, number: number, tool: { [key: string]: JsonValue }): EditResult {
  const present = valueAt(text, ['tools', String(number)]);
  if (present === undefined) return setValue(text, ['tools', String(number)], tool);
  if (!isObject(present)) return { why: `tool ${number} is not an object` };
  const missing = Object.entries(tool).filter(([key]) => !Object.hasOwn(present, key));
  return sequence(
    text,
    missing.map(
      ([key, value]) =>
        now =>
          setValue(now, ['tools', String(number), key], value),
    ),
  );
}

/** Adds a text to what comments call a crib tool. Refuses a text without a size; a text that is there already changes nothing. */
export function addCalled(text: string, toolId: string, comment: string): EditResult {
  const called = calledText(comment);
  if (!holdsSize(called)) return { why: 'the comment holds no size; it would fit too many tools' };
  const tool = valueAt(text, ['tools', toolId]);
  if (!isObject(tool)) return { why: `no tool "${toolId}" in the crib` };
  const list = tool.called;
  if (list === undefined) return setValue(text, ['tools', toolId, 'called'], [called]);
  if (!Array.isArray(list)) return { why: `"called" of "${toolId}" is not a list` };
  if (list.some(entry => typeof entry === 'string' && calledKey(entry) === calledKey(called)))
    return { edits: [] };
  const edits = modify(text, ['tools', toolId, 'called', list.length], called, {
    formattingOptions: formattingOf(text),
    isArrayInsertion: true,
  });
  return { edits: edits.map(fromLibrary) };
}

/** Says that a crib tool stands in a machine under a number. The tool and the machine must be there. */
export function addStanding(text: string, machine: string, number: number, toolId: string): EditResult {
  if (!isObject(valueAt(text, ['machines', machine]))) return { why: `no machine "${machine}" in the crib` };
  if (!isObject(valueAt(text, ['tools', toolId]))) return { why: `no tool "${toolId}" in the crib` };
  return setValue(text, ['machines', machine, 'standing', String(number)], toolId);
}

/** The text after edits. */
export function applyTextEdits(text: string, edits: readonly TextEdit[]): string {
  return applyEdits(
    text,
    edits.map(({ offset, length, text: content }) => ({ offset, length, content })),
  );
}

function sequence(text: string, steps: readonly ((now: string) => EditResult)[]): EditResult {
  let now = text;
  for (const step of steps) {
    const result = step(now);
    if ('why' in result) return result;
    now = applyTextEdits(now, result.edits);
  }
  return textDifference(text, now);
}

/** The edit that turns one text into another: the one stretch in which they differ; none when they are the same. */
export function textDifference(before: string, after: string): { edits: TextEdit[] } {
  return { edits: before === after ? [] : [difference(before, after)] };
}

function difference(before: string, after: string): TextEdit {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  let end = 0;
  while (
    end < before.length - start &&
    end < after.length - start &&
    before.at(-1 - end) === after.at(-1 - end)
  )
    end++;
  return { offset: start, length: before.length - start - end, text: after.slice(start, after.length - end) };
}

function valueAt(text: string, path: JSONPath): unknown {
  const tree = parseBounded(text, []);
  const node = tree && findNodeAtLocation(tree, path);
  return node && getNodeValue(node);
}

function blockedAt(tree: Node | undefined, path: readonly (string | number)[]): string | undefined {
  for (let depth = 1; tree && depth < path.length; depth++) {
    const node = findNodeAtLocation(tree, jsonPath(path.slice(0, depth)));
    if (!node) return undefined;
    if (node.type !== 'object' && node.type !== 'array') return String(path[depth - 1]);
  }
  return undefined;
}

function jsonPath(path: readonly (string | number)[]): JSONPath {
  return [...path];
}

/** Indents as the file does: tabs or so many blanks, its own line ends. */
function formattingOf(text: string): FormattingOptions {
  const indent = /\n([ \t]+)\S/.exec(text)?.[1];
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  if (indent?.startsWith('\t')) return { insertSpaces: false, tabSize: 1, eol };
  return { insertSpaces: true, tabSize: indent && indent.length <= 8 ? indent.length : 2, eol };
}

function fromLibrary({ offset, length, content }: Edit): TextEdit {
  return { offset, length, text: content };
}

function isObject(value: unknown): value is { [key: string]: unknown } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
