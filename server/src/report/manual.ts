import { NEED_WORDS } from '../review/needs.ts';
import { FAMILIES, type Rule, type RuleCase } from '../review/rule.ts';
import { rules } from '../review/rules/index.ts';
import { explanations } from './explain/explain.ts';
import { explanationMarkdown } from './explain/write.ts';
import { findingCodes } from './finding-codes.ts';
import { table } from './markdown.ts';

const MADE = (from: string) => `Made from ${from} by \`npm run generate\`: change those, not this page.`;

const FAMILY_WORDS: Record<(typeof FAMILIES)[number], string> = {
  language: 'Language',
  state: 'State of the machine',
  numbers: 'Numbers',
  geometry: 'Geometry',
  cutting: 'Cutting',
  shop: 'Shop and job',
};

/** Text with what would begin markup in a page escaped; easier on the eye than escaping everything. */
const plain = (text: string): string => text.replace(/[\\`*_[\]<>|]/g, character => `\\${character}`);

/** Examples longer than this are left to the tests. */
const MOST_EXAMPLE_LINES = 20;

/** The manual page of all findings: what each means, what to do, when it is fine, with programs that get it and that do not. */
export function findingsManual(): string {
  const own = new Set(rules.map(rule => rule.code));
  const others = findingCodes.filter(({ code }) => !own.has(code));
  return [
    '# Findings',
    '',
    MADE('the table of rules in `server/src/review/rules`'),
    '',
    'A finding names its consequence first, then the number, then the way out. Severities: *error* would stop the control, break the tool, throw the part or hit something; *warning* will likely go badly; *information* is worth knowing; *hint* could be better.',
    'Silence one with a comment and a reason, on the block or on the line above a tool change for the whole tool: `(OK chip-load-low: light finishing pass)`. The setup sheet can do the same under `silence`.',
    'In the editor the setting `tapeproof.findings` gives a code another severity, or `off`.',
    '',
    table(
      ['code', 'title', 'severity', 'family'],
      rules.map(rule => [
        `[\`${rule.code}\`](#${rule.code})`,
        plain(rule.title),
        rule.severity,
        FAMILY_WORDS[rule.family],
      ]),
    ),
    '',
    ...FAMILIES.flatMap(family => {
      const members = rules.filter(rule => rule.family === family);
      return members.length === 0 ? [] : [`## ${FAMILY_WORDS[family]}`, '', ...members.flatMap(ruleSection)];
    }),
    '## Findings that are not of a rule',
    '',
    table(
      ['code', 'severity', 'means', 'what to do'],
      others.map(row => [`\`${row.code}\``, row.severity, plain(row.means), plain(row.cure)]),
    ),
    '',
  ].join('\n');
}

function ruleSection(rule: Rule): string[] {
  const needs = rule.needs.map(need => NEED_WORDS[need]).join(', ');
  return [
    `### ${rule.code}`,
    '',
    `**${plain(rule.title)}** (${rule.severity})`,
    '',
    plain(rule.means),
    '',
    `- what to do: ${plain(rule.cure)}`,
    `- fine when: ${plain(rule.fine_when)}`,
    `- source: ${plain(rule.source)}`,
    ...(needs === '' ? [] : [`- needs: ${plain(needs)}; without it the check is listed under 'not checked'`]),
    ...(rule.explains?.length
      ? [`- speaks for: ${rule.explains.map(code => `\`${code}\``).join(', ')}`]
      : []),
    ...(rule.problems?.length ? [`- carries: ${rule.problems.map(code => `\`${code}\``).join(', ')}`] : []),
    `- silence it: \`(OK ${rule.code}: why it is fine here)\``,
    '',
    ...short(rule.flagged)
      .slice(0, 2)
      .flatMap(example => caseLines('Gets it', example)),
    ...short(rule.silent)
      .slice(0, 1)
      .flatMap(example => caseLines('Does not', example)),
  ];
}

const short = (cases: readonly RuleCase[]) =>
  cases.filter(({ program }) => program.split('\n').length <= MOST_EXAMPLE_LINES);

function caseLines(lead: string, example: RuleCase): string[] {
  const { dialect, kind } = example.options ?? {};
  const read = [dialect, kind].filter(word => word !== undefined).join(', ');
  const sheet = example.sheet === undefined ? '' : ', with a setup sheet that names tool and material';
  return [
    `${lead}: ${plain(example.name)}${read === '' ? '' : ` (read as ${read})`}${sheet}.`,
    '',
    '```gcode',
    ...example.program.replace(/\n$/, '').split('\n').map(printable),
    '```',
    '',
  ];
}

const printable = (line: string): string =>
  line.replace(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069`]/g, mark =>
    mark === '`' ? "'" : '\u2423',
  );

/** The manual page of quantities and of our own words. */
export function quantitiesManual(): string {
  const of = (kind: string) => explanations().filter(each => each.kind === kind);
  return [
    '# Quantities',
    '',
    MADE('the table of quantities in `server/src/cutting`'),
    '',
    '`tapeproof explain NAME` says the same in the terminal.',
    '',
    ...of('quantity').flatMap(each => [explanationMarkdown(each, plain), '']),
    '## Words',
    '',
    ...of('word').flatMap(each => [explanationMarkdown(each, plain), '']),
  ].join('\n');
}
