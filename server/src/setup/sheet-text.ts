import {
  createScanner,
  getNodeValue,
  type Node,
  type ParseError,
  parseTree,
  printParseErrorCode,
} from 'jsonc-parser';
import type { OriginFrom } from './known.ts';
import type { SheetProblem } from './problem.ts';
import type { SheetUnits } from './quantity.ts';
import { ReadContext } from './read-context.ts';
import type { Spec } from './spec.ts';

const deepest = 40;
const largest = 4_000_000;
// Token numbers of the scanner: the library declares them as a const enum, which cannot be imported file by file.
const token = { openBrace: 1, closeBrace: 2, openBracket: 3, closeBracket: 4, end: 17 };

/** Parses JSON with comments and trailing commas and reads it by a table; broken places become problems, the rest is read. */
export function readJsonText<T extends object>(
  text: string,
  spec: Spec<T>,
  from: OriginFrom,
  file: string,
): { value: Partial<T>; problems: SheetProblem[] } {
  const problems: SheetProblem[] = [];
  const tree = parseBounded(text, problems);
  if (!tree) return { value: {}, problems };
  const shared = { from, file, lineOf: lineFinder(text), problems };
  const context = new ReadContext(shared, unitsIn(tree));
  if (tree.type !== 'object') {
    context.report('setup-not-object', tree, 'This must be an object in braces.');
    return { value: {}, problems };
  }
  const value = spec.read(tree, context) ?? {};
  problems.sort((a, b) => a.offset - b.offset);
  return { value, problems };
}

/** The JSON tree of a text; undefined when there is none. Bounded in size and depth, so that any bytes may come. */
export function parseBounded(text: string, problems: SheetProblem[]): Node | undefined {
  const json = (message: string, offset: number, length: number): void => {
    if (problems.length < 50)
      problems.push({ code: 'setup-json', severity: 'error', message, offset, length });
  };
  if (text.length > largest) {
    json(`The file is larger than ${largest} characters; it is not read.`, 0, 1);
    return undefined;
  }
  const plain = text.startsWith('\uFEFF') ? ` ${text.slice(1)}` : text;
  const tooDeep = depthOverrun(plain);
  if (tooDeep !== undefined) {
    json(`Brackets are nested deeper than ${deepest}; the file is not read.`, tooDeep, 1);
    return undefined;
  }
  const errors: ParseError[] = [];
  const tree = parseTree(plain, errors, {
    allowTrailingComma: true,
    disallowComments: false,
    allowEmptyContent: true,
  });
  for (const error of errors)
    json(inWords(printParseErrorCode(error.error)), error.offset, Math.max(1, error.length));
  return tree;
}

function depthOverrun(text: string): number | undefined {
  const scanner = createScanner(text, true);
  let depth = 0;
  for (let kind: number = scanner.scan(); kind !== token.end; kind = scanner.scan()) {
    if (kind === token.openBrace || kind === token.openBracket) depth++;
    else if (kind === token.closeBrace || kind === token.closeBracket) depth--;
    if (depth > deepest) return scanner.getTokenOffset();
  }
  return undefined;
}

function unitsIn(tree: Node): SheetUnits | undefined {
  const property = tree.children?.findLast(child => child.children?.[0]?.value === 'units');
  const node = property?.children?.[1];
  const value: unknown = node && getNodeValue(node);
  const word = typeof value === 'string' ? value.trim().toLowerCase() : '';
  return word === 'inch' || word === 'mm' ? word : undefined;
}

/** Turns offsets into 1-based lines; LF, CR LF and CR all end a line. */
export function lineFinder(text: string): (offset: number) => number {
  const starts = [0];
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === 10 || (code === 13 && text.charCodeAt(index + 1) !== 10)) starts.push(index + 1);
  }
  return offset => {
    let low = 0;
    let high = starts.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
}

/** `ValueExpected` as `value expected`. */
function inWords(code: string): string {
  const words = code.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  return `Not JSON here: ${words}.`;
}
