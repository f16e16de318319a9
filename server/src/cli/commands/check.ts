import { type SarifPart, sarifLog } from '../../report/sarif.ts';
import { count } from '../../report/words.ts';
import { SEVERITIES, type Severity } from '../../review/finding.ts';
import { type OptionRow, UsageError, wholeNumber } from '../arguments.ts';
import type { CheckFormat } from '../check-file.ts';
import { checkFiles } from '../check-pool.ts';
import { type Command, EXIT } from '../command.ts';
import { say, visible, writeResult } from '../output.ts';
import { programFiles } from '../programs.ts';
import { VERSION } from '../version.ts';

const options: readonly OptionRow[] = [
  {
    name: 'format',
    type: 'string',
    value: 'text|json|sarif',
    values: ['text', 'json', 'sarif'],
    means: 'how it is written; text by default',
  },
  {
    name: 'fail-on',
    type: 'string',
    value: 'error|warning|information|never',
    values: ['error', 'warning', 'information', 'never'],
    means: 'ends with 1 when a finding is at or above it; error by default',
  },
  {
    name: 'shard',
    type: 'string',
    value: 'I/N',
    means: 'only the I-th of N parts of the files, counted from 1',
  },
  { name: 'jobs', type: 'string', value: 'N', means: 'how many files are worked on at a time' },
  { name: 'all', type: 'boolean', means: 'in folders, look at the content of files with other endings too' },
];

export const check: Command = {
  name: 'check',
  takes: 'PATH…',
  does: 'findings only, of files or folders, for gates',
  options,
  async run(args) {
    if (args.positionals.length === 0) throw new UsageError('check takes at least one file or folder');
    const failOn = args.text('fail-on') ?? 'error';
    const jobs = wholeNumber(args.text('jobs') ?? '1', 'jobs', 1, 64);
    const files = shard(programFiles(args.positionals, args.flag('all')), args.text('shard'));
    const format = (args.text('format') ?? 'text') as CheckFormat;
    const entries: unknown[] = [];
    const parts: SarifPart[] = [];
    const total: Severity[] = [];
    let incomplete = false;
    let unreadable: string | undefined;
    await checkFiles(files, args, format, jobs, result => {
      total.push(...result.severities);
      if (result.failed?.usage) unreadable ??= result.failed.why;
      else if (result.failed)
        say(`${result.path}: not reviewed, something went wrong inside: ${result.failed.why}`);
      else if (!result.complete)
        say(`${result.path}: the review is incomplete: a bound was reached before the program ended`);
      if (!result.complete) incomplete = true;
      if (result.json !== undefined) entries.push(result.json);
      if (result.sarif) parts.push(result.sarif);
      if (result.text !== undefined) writeResult(visible(result.text));
    });
    if (unreadable !== undefined) throw new UsageError(unreadable);
    if (format === 'json') writeResult(`${JSON.stringify({ files: entries }, null, 2)}\n`);
    else if (format === 'sarif') writeResult(`${JSON.stringify(sarifLog(parts, VERSION), null, 2)}\n`);
    else if (files.length !== 1) writeResult(`${summary(files.length, total)}\n`);
    if (total.some(severity => reaches(severity, failOn))) return EXIT.findings;
    return incomplete ? EXIT.incomplete : EXIT.done;
  },
};

function summary(files: number, severities: readonly Severity[]): string {
  const parts = SEVERITIES.map(severity => {
    const n = severities.filter(s => s === severity).length;
    return severity === 'information' ? `${n} information` : count(n, severity);
  });
  return `${count(files, 'file')}: ${parts.join(', ')}`;
}

function reaches(severity: Severity, failOn: string): boolean {
  if (failOn === 'never') return false;
  return SEVERITIES.indexOf(severity) <= SEVERITIES.indexOf(failOn as Severity);
}

function shard(files: string[], text: string | undefined): string[] {
  if (text === undefined) return files;
  const match = /^(\d{1,4})\/(\d{1,4})$/.exec(text);
  const index = Number(match?.[1]);
  const parts = Number(match?.[2]);
  if (!match || index < 1 || index > parts)
    throw new UsageError(`--shard takes I/N with I from 1 to N, not '${text}'`);
  return files.filter((_, i) => i % parts === index - 1);
}
