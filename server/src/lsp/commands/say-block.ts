import { QUANTITIES } from '../../cutting/quantities.ts';
import { spanWords, toolWords } from '../../report/tool-words.ts';
import { LINE_QUANTITIES, lineFacts } from '../../review/facts.ts';
import type { Review } from '../../review/review.ts';
import { STEP_KINDS } from '../../rs274/index.ts';
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

/** Sentences about one line: what it is, with which tool, each number with its unit, each finding. */
export function blockSentences(review: Review, line: number): string[] {
  const { program } = review;
  const facts = lineFacts(program, line);
  const sentences = [`Line ${line + 1} reads ${program.reading.text.lineText(line).trim() || 'nothing'}.`];
  if (!facts) sentences.push('It makes no move.');
  else {
    const number = facts.tools[0];
    const kinds = facts.kinds.map(kind => STEP_KINDS[kind]).join(', ');
    sentences.push(
      `It makes: ${kinds}${number === undefined ? '' : `, with tool ${number}, ${toolWords(program.tool(number), program.shown)}`}.`,
    );
    for (const name of LINE_QUANTITIES) {
      const span = facts.values[name];
      if (span)
        sentences.push(`${capital(QUANTITIES[name].title)}: ${spanWords(name, span, program.shown)}.`);
    }
    if (facts.missing.length > 0) sentences.push(`Not known: ${facts.missing.join(', ')}.`);
  }
  for (const finding of review.findings)
    if (finding.line === line) sentences.push(`${capital(finding.severity)}: ${finding.message}`);
  return sentences;
}

function capital(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}
