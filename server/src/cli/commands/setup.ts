import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { sheetName } from '../../job/job-files.ts';
import { programFacts } from '../../job/program-facts.ts';
import { count } from '../../report/words.ts';
import { addMissingTools, applyTextEdits, newSheet, type ProgramFacts } from '../../setup/index.ts';
import { type Arguments, UsageError } from '../arguments.ts';
import { type Command, EXIT } from '../command.ts';
import { load } from '../load.ts';
import { visible, writeFileWhole, writeNewFile, writeResult } from '../output.ts';

export const setup: Command = {
  name: 'setup',
  takes: 'PROGRAM',
  does: 'a setup sheet beside the program with what the program itself says, marked; never overwrites',
  options: [
    {
      name: 'add',
      type: 'boolean',
      means: 'to a sheet that is there, adds the tools that it does not have; nothing else of it changes',
    },
  ],
  async run(args) {
    const [path, ...more] = args.positionals;
    if (path === undefined || more.length > 0) throw new UsageError('setup takes one program');
    if (path === '-') throw new UsageError('setup needs a program in a file, to write the sheet beside it');
    const sheet = args.text('setup') ?? join(dirname(path), sheetName(basename(path)));
    const there = existsSync(sheet);
    if (there && !args.flag('add'))
      throw new UsageError(`${sheet} is there and is not overwritten; --add adds the tools it does not have`);
    const { review } = await load(path, there ? args : withoutSheet(args));
    const facts = programFacts(review, basename(path));
    writeResult(visible(there ? add(sheet, facts) : create(sheet, facts)));
    return EXIT.done;
  },
};

/** A sheet that is not there yet cannot be read. */
function withoutSheet(args: Arguments): Arguments {
  return { ...args, text: name => (name === 'setup' ? undefined : args.text(name)) };
}

function create(sheet: string, facts: ProgramFacts): string {
  writeNewFile(sheet, newSheet(facts));
  const read = facts.tools.filter(tool => tool.reading && Object.keys(tool.reading.fields).length > 0);
  const asks = facts.tools.filter(needsTeeth).map(tool => `T${tool.number}`);
  return [
    `${sheet}: written, ${count(facts.tools.length, 'tool')}, ${read.length} of them read from comments: check those.`,
    ...(asks.length > 0 ? [`The program does not say the teeth of ${asks.join(', ')}.`] : []),
    '',
  ].join('\n');
}

function add(sheet: string, facts: ProgramFacts): string {
  const text = readFileSync(sheet, 'utf8');
  const result = addMissingTools(text, facts);
  if ('why' in result) throw new UsageError(`${sheet}: nothing was added: ${result.why}`);
  if (result.edits.length === 0) return `${sheet}: has every tool of the program, nothing was added.\n`;
  writeFileWhole(sheet, applyTextEdits(text, result.edits));
  return `${sheet}: the missing tools were added, nothing else was changed. Check what is marked as read.\n`;
}

function needsTeeth({ reading }: ProgramFacts['tools'][number]): boolean {
  const kind = reading?.fields.kind?.value;
  return !reading?.fields.teeth && (kind === undefined || /mill|drill|reamer/.test(kind));
}
