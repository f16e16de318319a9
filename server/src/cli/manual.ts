import { CAUTION } from '../report/words.ts';
import { COMMON_OPTIONS, type OptionRow } from './arguments.ts';
import { EXIT } from './command.ts';
import { commands } from './commands/index.ts';

const EXIT_WORDS: Record<keyof typeof EXIT, string> = {
  done: 'done; for gates: nothing at or above the severity that fails',
  findings: 'findings at or above the severity that fails',
  usage: 'wrong usage, or a file that cannot be read; nothing was written',
  incomplete: 'the review is incomplete because a bound was reached; with findings too, 1 wins',
  interrupted: 'interrupted',
};

/** The manual page of the command line. */
export function commandsManual(): string {
  return [
    '# Command line',
    '',
    'Made from the table of commands in `server/src/cli/commands` by `npm run generate`: change that, not this page.',
    '',
    '`tapeproof COMMAND …`. No network. Results go to standard output, all else to standard error; nothing is written but where `--out` or a command that writes says so.',
    'A program is a file, or `-` for standard input. A setup sheet `NAME.setup.json` beside it and the nearest `crib.json` upwards are read with it.',
    '',
    ...commands.flatMap(({ name, takes, does, options }) => [
      `## ${name}`,
      '',
      `\`tapeproof ${name} ${takes}\``,
      '',
      `${does[0].toUpperCase() + does.slice(1)}.`,
      '',
      ...optionLines(options),
    ]),
    '## With every command',
    '',
    ...optionLines(COMMON_OPTIONS),
    '## How it ends',
    '',
    '| code | means |',
    '| --- | --- |',
    ...Object.entries(EXIT).map(([key, number]) => `| ${number} | ${EXIT_WORDS[key as keyof typeof EXIT]} |`),
    '',
    CAUTION,
    '',
  ].join('\n');
}

function optionLines(options: readonly OptionRow[]): string[] {
  if (options.length === 0) return [];
  return [
    '| option | means |',
    '| --- | --- |',
    ...options.map(({ name, value, means }) => {
      const shown = `--${name}${value ? ` ${value}` : ''}`.replaceAll('|', '\\|');
      return `| \`${shown}\` | ${means.replaceAll('|', '\\|')} |`;
    }),
    '',
  ];
}
