import { type CommandRow, commands } from './commands.ts';
import { type SettingRow, settings } from './settings.ts';

/** The manual page of commands and settings, made from the tables of this folder. */
export function manualPage(): string {
  const commandLines = (commands as readonly CommandRow[]).map(
    row =>
      `| ${row.title} | \`tapeproof.${row.name}\` | ${row.key ? `\`${row.key}\`` : ''} | ${cell(row.does)} |`,
  );
  return [
    '# Commands and settings',
    '',
    'Made from the tables in `client/src/tables` by `npm run generate`: change those, not this page.',
    '',
    '## Commands',
    '',
    'All are in the command palette under `Tapeproof`.',
    '',
    '| command | identifier | key | what it does |',
    '|---|---|---|---|',
    ...commandLines,
    '',
    '## Settings',
    '',
    ...(settings as readonly SettingRow[]).flatMap(settingLines),
  ].join('\n');
}

function settingLines(row: SettingRow): string[] {
  const bounds = row.least === undefined ? '' : `, from ${row.least} to ${row.most}`;
  return [
    `### \`tapeproof.${row.name}\``,
    '',
    `${row.description} Default: \`${JSON.stringify(row.default)}\`${bounds}.`,
    '',
    ...(row.choices ?? []).map(choice => `- \`${choice.value}\`: ${choice.means}`),
    ...(row.choices ? [''] : []),
  ];
}

const cell = (text: string): string => text.replaceAll('|', '\\|');
