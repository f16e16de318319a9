import { createScanner, type Node } from 'jsonc-parser';

/** The scanner's tokens by number: its own names are a const enum, which single files cannot use. */
const TOKEN = { comma: 5, lineBreak: 14, blank: 15, end: 17 } as const;

/**
 * Text with a property put behind the last one of an object that has some: not a blank of what is there changes, comments
 * stay where they stand. `write` gives the value's text for the indent that the property gets.
 */
export function appendProperty(
  text: string,
  object: Node,
  key: string,
  write: (indent: string) => string,
): string | undefined {
  const last = object.children?.at(-1);
  if (object.type !== 'object' || !last) return undefined;
  const end = last.offset + last.length;
  const close = object.offset + object.length - 1;
  const { comma, after } = tail(text, end, close);
  const indent = indentOf(text, last.offset) ?? `${indentOf(text, close) ?? ''}  `;
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const property = `${eol}${indent}${JSON.stringify(key)}: ${write(indent)}`;
  const rest = text.slice(after);
  // A brace on the line of the last property goes to a line of its own.
  const brace = rest.slice(0, close - after).includes('\n')
    ? ''
    : `${eol}${indentOf(text, object.offset) ?? ''}`;
  return (
    text.slice(0, end) +
    (comma ? '' : ',') +
    text.slice(end, after) +
    property +
    (comma ? ',' : '') +
    brace +
    rest
  );
}

/** Whether a comma stands behind the last property, and where its comma and comments end. */
function tail(text: string, from: number, to: number): { comma: boolean; after: number } {
  const scanner = createScanner(text);
  scanner.setPosition(from);
  let comma = false;
  let after = from;
  for (
    let token = scanner.scan();
    scanner.getTokenOffset() < to && Number(token) !== TOKEN.end;
    token = scanner.scan()
  ) {
    if (Number(token) === TOKEN.blank || Number(token) === TOKEN.lineBreak) continue;
    if (Number(token) === TOKEN.comma) comma = true;
    after = scanner.getTokenOffset() + scanner.getTokenLength();
  }
  return { comma, after };
}

/** Blanks before a place when nothing else stands on its line before it. */
function indentOf(text: string, offset: number): string | undefined {
  return /(?:^|[\r\n])([ \t]*)$/.exec(text.slice(0, offset))?.[1];
}
