import { LATHE_CODE_SYSTEMS } from './lathe-cycles.ts';
import { type CodeRow, DIALECTS, type Dialect, GROUPS } from './shape.ts';
import { CODES, codeName } from './table.ts';

const cell = (text: string): string => text.replaceAll('|', '\\|');
const nameOf = (row: CodeRow): string =>
  row.through === undefined ? codeName(row) : `${codeName(row)} to ${row.letter}${row.through}`;

function mark(row: CodeRow, dialect: Dialect): string {
  if (!row.dialects.includes(dialect)) return '';
  if (row.effect === 'not-followed') return 'named';
  return row.effect === 'accepted' ? 'no effect' : 'followed';
}

/**
 * The manual's page of codes, as markdown: what each code does and in which dialect it is followed,
 * accepted without effect on path, feed or tool, or only named as not followed.
 */
export function codesManual(): string {
  const rows = [...CODES].sort((a, b) => a.letter.localeCompare(b.letter) || a.number - b.number);
  const lines = [
    '# Codes',
    '',
    'Made from the code table; do not edit by hand. *followed*: its moves and state are worked out; *no effect*: read, and nothing',
    'about path, feed, speed or tool depends on it; *named*: reported as not followed, with what that leaves unchecked.',
    '',
    `| code | means | group | ${DIALECTS.join(' | ')} | words | source |`,
    `| --- | --- | --- | ${DIALECTS.map(() => '---').join(' | ')} | --- | --- |`,
    ...rows.map(row => {
      const words = [...row.words.required, ...row.words.optional.map(word => `(${word})`)].join(' ');
      const kind = row.kind ? ` (${row.kind})` : '';
      return `| ${nameOf(row)} | ${cell(row.means)}${kind} | ${GROUPS[row.group]} ${row.group} | ${DIALECTS.map(dialect => mark(row, dialect)).join(' | ')} | ${cell(words)} | ${cell(row.source)} |`;
    }),
    '',
    '## Not followed',
    '',
    '| code | what it leaves unchecked |',
    '| --- | --- |',
    ...rows
      .filter(row => row.leaves_unchecked !== undefined)
      .map(
        row =>
          `| ${nameOf(row)} ${cell(row.means)} (${row.dialects.join(', ')}) | ${cell(row.leaves_unchecked ?? '')} |`,
      ),
    '',
    '## The same function in the lathe code systems',
    '',
    '| function | A | B | C |',
    '| --- | --- | --- | --- |',
    ...LATHE_CODE_SYSTEMS.map(({ means, a, b, c }) => `| ${means} | ${a} | ${b} | ${c} |`),
    '',
  ];
  return lines.join('\n');
}
