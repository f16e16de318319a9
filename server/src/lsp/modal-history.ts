import { type CodeRow, codeFor, GROUPS, type Group, type Reading, RUN, S } from '../rs274/index.ts';
import { lineTokens } from './line-tokens.ts';
import { linesAbove } from './text-lines.ts';

/** A code or word still in force and the line it stands on. */
export interface InForce {
  /** As people write it: G1, F300. */
  text: string;
  means: string;
  /** 0-based; undefined when it was not found above (it is the state at the start, or the search ended). */
  line: number | undefined;
}

/** Lines that are searched upward. */
const FAR = 100_000;

const MODAL: readonly { group: Group; field: keyof typeof RUN; scale: number }[] = [
  { group: 'motion', field: 'motion', scale: 0.1 },
  { group: 'distance', field: 'distance', scale: 1 },
  { group: 'feed-mode', field: 'feed_mode', scale: 1 },
  { group: 'work-offset', field: 'frame', scale: 0.1 },
  { group: 'compensation', field: 'compensation', scale: 1 },
];

/** What is in force after a line and is not written on it: codes of the groups that matter, then F and S. */
export function inForce(reading: Reading, line: number): InForce[] {
  const state = reading.stateAfter(line).v;
  const wanted: (InForce & { letter: string; number: number })[] = [];
  for (const { group, field, scale } of MODAL) {
    const number = Math.round(state[S.tool + RUN[field]] * scale * 10) / 10;
    if (Number.isNaN(number)) continue;
    const row = codeOf(group, number, reading);
    if (row !== undefined)
      wanted.push({
        text: `G${row.number}`,
        means: row.means,
        line: undefined,
        letter: 'G',
        number: row.number,
      });
  }
  const written = lineTokens(reading.text.lineText(line));
  const open = wanted.filter(
    ({ letter, number }) => !written.some(token => token.letter === letter && token.value === number),
  );
  open.push(
    ...['F', 'S']
      .filter(letter => !written.some(token => token.letter === letter))
      .map(letter => ({ text: letter, means: '', line: undefined, letter, number: Number.NaN })),
  );
  search(reading, line, open);
  return open
    .filter(({ text, line: found }) => text.length > 1 || found !== undefined)
    .map(({ text, means, line: found }) => ({ text, means, line: found }));
}

/** Feed mode and absolute words have other numbers in code system A: the row is found by what it does. */
function codeOf(group: Group, number: number, { settled }: Reading): CodeRow | undefined {
  const { dialect, kind } = settled;
  const lathe_a = dialect.value === 'lathe-a';
  if (group === 'feed-mode' && lathe_a)
    return codeFor('G', number === 94 ? 98 : 99, dialect.value, kind.value);
  const row = codeFor('G', number, dialect.value, kind.value);
  return row !== undefined && GROUPS[row.group] === GROUPS[group] ? row : undefined;
}

/** Fills in the lines, looking upward from the line above. */
function search(
  reading: Reading,
  from: number,
  wanted: (InForce & { letter: string; number: number })[],
): void {
  let left = wanted.length;
  for (const { line, source } of linesAbove(reading.text, from, FAR)) {
    if (left === 0) return;
    if (!/[GFSgfs]/.test(source)) continue;
    for (const token of lineTokens(source)) {
      for (const item of wanted) {
        if (item.line !== undefined || token.letter !== item.letter || Number.isNaN(token.value)) continue;
        if (!Number.isNaN(item.number) && token.value !== item.number) continue;
        item.line = line;
        if (Number.isNaN(item.number))
          item.text = source.slice(token.start, token.end).replace(/[ \t]/g, '').toUpperCase();
        left -= 1;
      }
    }
  }
}
