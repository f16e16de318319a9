import type { ProveoutSheet, ProveoutTool } from '../proveout/sheet.ts';
import type { Review } from '../review/review.ts';
import {
  approachSteps,
  gaugeRows,
  IF_NOT,
  NOT_SEEN,
  offsetRows,
  placeWord,
  positionWords,
  soundWords,
  spindleWords,
  squealWords,
  startWords,
  stopWords,
  toolLine,
  toolName,
  watchWords,
} from './proveout-words.ts';
import { settledWords } from './settled-words.ts';
import { verdictLine } from './verdict-line.ts';
import { CAUTION, columns, wrap } from './words.ts';

const WIDTH = 100;
const BLANK = '______';

/** The prove-out sheet as text. */
export function proveoutText(review: Review, sheet: ProveoutSheet, path: string): string {
  const { shown } = review.program;
  const blocks = [
    `Prove-out of ${path}\n${settledWords(review.program)}. ${verdictLine(review)}\n${wrap(NOT_SEEN, WIDTH)}`,
    block(
      'Before each first contact',
      approachSteps(review.program).map((step, i) => `${i + 1}. ${step}`),
    ),
    block(
      'Offsets, expected and seen',
      columns(offsetRows(review, sheet).map(({ name, expected }) => [name, expected, `seen ${BLANK}`])),
    ),
    ...(sheet.tools.length === 0
      ? ['No tool cuts in this program.']
      : sheet.tools.map(tool => toolBlock(review, tool))),
    block('If it does not sound so', columns(IF_NOT.map(row => [`${row[0]}:`, row[1]]))),
    block(
      'Measuring stops',
      sheet.stops.map(stop => `${stopWords(stop)}   measured ${BLANK}`),
    ),
    block(
      'Thread gauges',
      gaugeRows(sheet, shown).map(row => `${row}   go [ ]  no-go [ ]  depth ${BLANK}`),
    ),
    block('Start again at', restartRows(sheet)),
    wrap(CAUTION, WIDTH),
  ];
  return `${blocks.filter(text => text !== '').join('\n\n')}\n`;
}

function toolBlock(review: Review, tool: ProveoutTool): string {
  const { shown, kind } = review.program;
  const { contact, touch } = tool;
  const lines = [
    `spindle   ${spindleWords(tool.spindles, shown)}; rapid 5 to 25 %`,
    `start     ${startWords(tool)}`,
    ...wrap(`because   ${contact.sentence}`, WIDTH - 2, '          ')
      .trimStart()
      .split('\n'),
    ...(contact.percent !== undefined && contact.not_counted.length > 0
      ? [`          not counted yet: ${contact.not_counted.join('; ')}`]
      : []),
    touch
      ? `contact   line ${touch.line + 1}, ${placeWord(touch, kind)} ${positionWords(touch, shown, kind)}`
      : 'contact   never feeds',
    `listen    ${soundWords(tool, shown)}`,
    `if not    ${squealWords(tool, shown)}`,
    ...tool.watch.map(watch => `watch     ${watchWords(watch, shown)}`),
    ...(tool.more_watch > 0 ? [`watch     ${tool.more_watch} more: see the review`] : []),
    `done      feed ${BLANK} %  spindle ${BLANK}  by ${BLANK}`,
  ];
  return block(`${toolName(tool)}  ${toolLine(tool, shown)}`, lines);
}

function restartRows(sheet: ProveoutSheet): string[] {
  const rows = sheet.restarts.map(({ tool, line, restore, stated }) => [
    `line ${line + 1}`,
    tool >= 0 ? `T${tool}` : '',
    `restore ${restore.length > 0 ? restore.join(' ') : 'nothing'}`,
    `then the program states ${stated.join(' ') || 'nothing more'}`,
  ]);
  const more = sheet.more_restarts > 0 ? [[`${sheet.more_restarts} more uses are not listed`]] : [];
  return columns([...rows, ...more]);
}

function block(title: string, lines: readonly string[]): string {
  return lines.length === 0 ? '' : [`${title}:`, ...lines.map(line => `  ${line}`)].join('\n');
}
