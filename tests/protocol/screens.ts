import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Edit, Problem, Span } from './session.ts';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '../..');

/** A file of a fixture: `bracket/bracket.nc`. */
export const fixture = (name: string): string => readFileSync(path.join(root, 'fixtures', name), 'utf8');

/** A fixture's program alone, or with its setup sheet. */
export function job(name: string, withSheet: boolean): Record<string, string> {
  const files: Record<string, string> = { [`${name}.nc`]: fixture(`${name}/${name}.nc`) };
  if (withSheet) files[`${name}.setup.json`] = fixture(`${name}/${name}.setup.json`);
  return files;
}

/** Compares with `scenarios/<name>.screen`; UPDATE=1 renews the file: read the difference as a user would. */
export function sameScreen(name: string, actual: string): void {
  const file = path.join(here, 'scenarios', `${name}.screen`);
  const text = actual.endsWith('\n') ? actual : `${actual}\n`;
  if (process.env.UPDATE === '1') writeFileSync(file, text);
  assert.equal(text, readFileSync(file, 'utf8'), `${name}.screen: renew with UPDATE=1`);
}

const SEVERITY = ['', 'error', 'warning', 'information', 'hint'];

/** The program with its problems written under the words they point at. */
export function problemScreen(text: string, problems: readonly Problem[]): string {
  const rows: string[] = [];
  text.split('\n').forEach((line, number) => {
    rows.push(line);
    for (const { range, severity, code, message, relatedInformation } of problems) {
      if (range.start.line !== number) continue;
      const end = range.end.line === number ? range.end.character : line.length;
      const marks = '^'.repeat(Math.max(1, end - range.start.character));
      rows.push(
        `${' '.repeat(range.start.character)}${marks} ${SEVERITY[severity ?? 0]} ${code}: ${message}`,
      );
      for (const { location, message: words } of relatedInformation ?? [])
        rows.push(`    line ${location.range.start.line + 1}: ${words}`);
    }
  });
  return rows.join('\n');
}

/** `line:character to line:character`, all from 1 as the editor shows them. */
export const spanText = ({ start, end }: Span): string =>
  start.line === end.line
    ? `${start.line + 1}:${start.character + 1} to ${end.character + 1}`
    : `${start.line + 1}:${start.character + 1} to ${end.line + 1}:${end.character + 1}`;

/**
 * Text after edits that do not overlap, by a plain model: a place beyond the end of its line is the end of that line, one
 * beyond the last line the end of the text, as the language server protocol says.
 */
export function edited(text: string, edits: readonly Edit[]): string {
  const lines = text.split('\n');
  const offset = ({ line, character }: Span['start']) => {
    if (line >= lines.length) return text.length;
    const before = lines.slice(0, line).reduce((sum, row) => sum + row.length + 1, 0);
    return before + Math.min(character, lines[line].replace(/\r$/, '').length);
  };
  return [...edits]
    .sort((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (now, { range, newText }) => now.slice(0, offset(range.start)) + newText + now.slice(offset(range.end)),
      text,
    );
}
