/** The caution that stands on whatever gives a value or a verdict. */
export const CAUTION =
  "Starting values only. The machine's and the tool maker's limits and the shop's rules come first; prove out with the override low, guards shut and a hand at feed hold; a qualified person decides.";

/** What a review may say at best. */
export const NOTHING_FOUND = 'No errors found in what was checked.';

/** `1 error`, `3 errors`. */
export function count(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

/** Columns padded to equal width, two blanks between; the last is not padded. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, cell.length);
    });
  return rows.map(row =>
    row
      .map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i])))
      .join('  ')
      .trimEnd(),
  );
}

/** Text broken at blanks so that no line is longer than `width`. */
export function wrap(text: string, width: number, indent = ''): string {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(' ')) {
    if (line.length > indent.length && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
    }
    line += line.length > indent.length ? ` ${word}` : word;
  }
  lines.push(line);
  return lines.join('\n');
}
