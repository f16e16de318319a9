import { reviewHtml } from '../../report/html.ts';
import { factsJson, reviewJson } from '../../report/json.ts';
import { sarifLog, sarifPart } from '../../report/sarif.ts';
import { reviewText } from '../../report/text.ts';
import { type Arguments, type OptionRow, UsageError } from '../arguments.ts';
import { type Command, EXIT } from '../command.ts';
import { type Loaded, load } from '../load.ts';
import { say, visible, writeFileWhole, writeResult } from '../output.ts';
import { VERSION } from '../version.ts';

const options: readonly OptionRow[] = [
  {
    name: 'format',
    type: 'string',
    value: 'text|json|html|sarif',
    values: ['text', 'json', 'html', 'sarif'],
    means: 'how it is written; text by default',
  },
  { name: 'lines', type: 'string', value: 'A-B', means: 'lists these lines of the program first' },
  { name: 'facts', type: 'boolean', means: 'facts of each line as JSON lines instead of the review' },
  { name: 'out', type: 'string', value: 'FILE', means: 'writes to a file' },
];

export const review: Command = {
  name: 'review',
  takes: 'PROGRAM',
  does: 'everything known about one program: tools, operations, time, findings',
  options,
  async run(args) {
    const [path, ...more] = args.positionals;
    if (path === undefined || more.length > 0) throw new UsageError('review takes one program');
    const lines = lineRange(args.text('lines'));
    const loaded = await load(path, args);
    const text = args.flag('facts') ? facts(loaded, lines) : write(loaded, args, lines);
    const out = args.text('out');
    if (out === undefined) writeResult(text);
    else writeFileWhole(out, text);
    return exitCode(loaded);
  },
};

function write(loaded: Loaded, args: Arguments, lines: { from: number; to: number } | undefined): string {
  const format = args.text('format') ?? 'text';
  if (format === 'json') return `${JSON.stringify(reviewJson(loaded.review, loaded.file), null, 2)}\n`;
  if (format === 'html') return reviewHtml(loaded.review, loaded.file);
  if (format === 'sarif') return `${JSON.stringify(sarifLog([sarifPart(loaded)], VERSION), null, 2)}\n`;
  return visible(reviewText(loaded.review, { path: loaded.file.path, ...(lines ? { lines } : {}) }));
}

function facts(loaded: Loaded, lines: { from: number; to: number } | undefined): string {
  const rows: string[] = [];
  const last = Math.min(lines?.to ?? Infinity, loaded.review.program.lineCount);
  for (let line = lines?.from ?? 1; line <= last; line++) {
    const row = factsJson(loaded.review, line - 1);
    if (row) rows.push(JSON.stringify(row));
  }
  return rows.length > 0 ? `${rows.join('\n')}\n` : '';
}

function lineRange(text: string | undefined): { from: number; to: number } | undefined {
  if (text === undefined) return undefined;
  const match = /^(\d{1,9})(?:-(\d{1,9}))?$/.exec(text);
  const from = Number(match?.[1]);
  const to = Number(match?.[2] ?? match?.[1]);
  if (!match || from < 1 || to < from)
    throw new UsageError(`--lines takes a range such as 10-20, not '${text}'`);
  return { from, to };
}

/** Incomplete reviews are said on stderr and end with 3. */
export function exitCode(loaded: Loaded): number {
  if (loaded.review.complete) return EXIT.done;
  say(`${loaded.file.path}: the review is incomplete: a bound was reached before the program ended`);
  return EXIT.incomplete;
}
