/** Program text in a code span that no character of it can leave. */
export function code(text: string): string {
  const runs = text.match(/`+/g) ?? [];
  const fence = '`'.repeat(Math.max(0, ...runs.map(run => run.length)) + 1);
  const pad = fence.length > 1 || text.startsWith('`') || text.endsWith('`') || text.trim() === '' ? ' ' : '';
  return `${fence}${pad}${printable(text)}${pad}${fence}`;
}

/** Plain words with everything that markdown would read escaped. */
export function plain(text: string): string {
  return printable(text).replace(/[\\`*_{}[\]()#+\-.!|<>~&]/g, character => `\\${character}`);
}

/** A table; cells are markdown already. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map(cell => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

function printable(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, ' ');
}
