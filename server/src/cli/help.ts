import { CAUTION, columns, wrap } from '../report/words.ts';
import { COMMON_OPTIONS, type OptionRow } from './arguments.ts';
import type { Command } from './command.ts';
import { commands } from './commands/index.ts';

/** The first screen: what there is and how to go on. */
export function help(): string {
  const rows = commands.map(command => [`  ${command.name}`, command.takes, command.does]);
  return [
    'tapeproof: what speed and feed of an RS-274 program mean at the cutting edge, and what would go wrong',
    '',
    'tapeproof COMMAND …          tapeproof COMMAND --help for its options',
    '',
    ...columns(rows),
    '',
    'A program is a file, or - for standard input. A setup sheet NAME.setup.json beside it and the nearest',
    'crib.json upwards are read with it. Ends with 0 done, 1 findings, 2 wrong usage or a file that cannot be',
    'read, 3 review incomplete, 130 interrupted.',
    '',
    wrap(CAUTION, 100),
    '',
  ].join('\n');
}

export function commandHelp(command: Command): string {
  const rows = (options: readonly OptionRow[]) =>
    columns(options.map(row => [`  --${row.name}${row.value ? ` ${row.value}` : ''}`, row.means]));
  return [
    `tapeproof ${command.name} ${command.takes}`,
    command.does,
    '',
    ...rows(command.options),
    ...(command.options.length > 0 ? [''] : []),
    'With every command:',
    ...rows(COMMON_OPTIONS),
    '',
  ].join('\n');
}
