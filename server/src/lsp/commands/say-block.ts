import { QUANTITIES } from '../../cutting/quantities.ts';
import { factRows } from '../../report/line-words.ts';
import { spanWords, toolWords } from '../../report/tool-words.ts';
import { lineFacts } from '../../review/facts.ts';
import type { Review } from '../../review/review.ts';
import { STEP_KINDS, type StepKind } from '../../rs274/index.ts';
import type { ServerCommand } from './command.ts';

/** The block under the cursor in plain sentences that read well aloud. */
export const sayBlock: ServerCommand = {
  name: 'sayBlock',
  run: ({ job, line }) => ({
    do: 'say',
    severity: 'information',
    text: `Line ${line + 1}`,
    detail: blockSentences(job.review, line).join(' '),
  }),
};

/** What the moves of a block are called when they are read aloud; a tool change has its own sentence. */
const KIND_WORDS: Partial<Record<StepKind, string>> = {
  rapid: 'a rapid move',
  feed: 'a cut in a straight line',
  arc: 'a cut along an arc',
  thread: 'a thread pass',
  tap: 'tapping',
  dwell: 'a dwell',
  home: 'a move to the reference position',
  probe: 'a probing move',
  stop: 'a stop',
  end: 'the end of the program',
};

/** Sentences about one line: what it is, with which tool, each number with its unit and its window, each finding. */
export function blockSentences(review: Review, line: number): string[] {
  const { program } = review;
  const facts = lineFacts(program, line);
  const text = program.reading.text.lineText(line).trim();
  const sentences = [text === '' ? `Line ${line + 1} is empty.` : `Line ${line + 1}: ${text}`];
  const changed = review.tools.find(
    tool => tool.number >= 0 && tool.uses.some(use => use.change_line === line),
  );
  if (changed)
    sentences.push(`It changes to tool ${changed.number}, ${toolWords(changed.tool, program.shown)}.`);
  const kinds = facts?.kinds.map(kind => KIND_WORDS[STEP_KINDS[kind]]).filter(words => words !== undefined);
  if (!facts || !kinds?.length) {
    if (!changed && text !== '') sentences.push('It makes no move.');
  } else {
    const number = facts.tools[0];
    const tool =
      number === undefined ? '' : `, with tool ${number}, ${toolWords(program.tool(number), program.shown)}`;
    sentences.push(`It makes ${kinds.join(' and ')}${tool}.`);
    for (const name of ['spindle_rpm', 'feed_mm_min'] as const) {
      const span = facts.values[name];
      if (span)
        sentences.push(`${capital(QUANTITIES[name].title)}: ${spanWords(name, span, program.shown)}.`);
    }
    for (const { title, value, window } of factRows(review, facts))
      sentences.push(`${capital(title)}: ${value}${window === '' ? '' : `, ${windowWords(window)}`}.`);
    if (facts.missing.length > 0) sentences.push(`Not known: ${facts.missing.join(', ')}.`);
  }
  for (const finding of review.findings)
    if (finding.line === line) sentences.push(`${capital(finding.severity)}: ${finding.message}`);
  return sentences;
}

const windowWords = (window: string): string =>
  window.replace(/^(inside|partly under|partly over|under and over|under|over) /, '$1 its window of ');

function capital(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}
