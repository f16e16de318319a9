import { proveoutSheet } from '../../proveout/sheet.ts';
import { proveoutHtml } from '../../report/proveout-html.ts';
import { proveoutJson } from '../../report/proveout-json.ts';
import { proveoutText } from '../../report/proveout-text.ts';
import { UsageError } from '../arguments.ts';
import type { Command } from '../command.ts';
import { type Loaded, load } from '../load.ts';
import { visible, writeFileWhole, writeResult } from '../output.ts';
import { exitCode } from './review.ts';

export const proveout: Command = {
  name: 'proveout',
  takes: 'PROGRAM',
  does: 'the sheet for the machine: first contact, steps up, what to listen for, where to start again',
  options: [
    {
      name: 'format',
      type: 'string',
      value: 'text|html|json',
      values: ['text', 'html', 'json'],
      means: 'how it is written; text by default',
    },
    { name: 'out', type: 'string', value: 'FILE', means: 'writes to a file' },
  ],
  async run(args) {
    const [path, ...more] = args.positionals;
    if (path === undefined || more.length > 0) throw new UsageError('proveout takes one program');
    const loaded = await load(path, args);
    const text = write(loaded, args.text('format') ?? 'text');
    const out = args.text('out');
    if (out === undefined) writeResult(text);
    else writeFileWhole(out, text);
    return exitCode(loaded);
  },
};

function write({ review, file }: Loaded, format: string): string {
  const sheet = proveoutSheet(review);
  if (format === 'json') return `${JSON.stringify(proveoutJson(review, sheet), null, 2)}\n`;
  if (format === 'html') return proveoutHtml(review, sheet, file);
  return visible(proveoutText(review, sheet, file.path));
}
