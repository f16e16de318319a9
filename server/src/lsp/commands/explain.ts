import { explainMarkdown } from '../../report/explain/write.ts';
import { type CommandContext, type ServerCommand, say } from './command.ts';

/** The page of the finding at the cursor, else of the word there. */
export const explain: ServerCommand = {
  name: 'explain',
  run(context) {
    const [asked] = context.params.args as [unknown];
    const names = typeof asked === 'string' ? [asked] : namesAt(context);
    const pages = names.map(name => explainMarkdown(name)).filter(page => page !== undefined);
    if (pages.length === 0) return say('There is nothing here that has a page.');
    return {
      do: 'page',
      title: `What it is: ${names.join(', ')}`,
      format: 'markdown',
      content: pages.join('\n\n---\n\n'),
    };
  },
};

function namesAt({ job, line, params }: CommandContext): string[] {
  const { review } = job;
  const found = review.findings
    .filter(finding => finding.line === line && !finding.file)
    .map(finding => finding.code);
  if (found.length > 0) return [...new Set(found)];
  const at = params.position?.character ?? 0;
  const word = review.program.words(line).find(w => w.start <= at && at <= w.end);
  if (!word) return [];
  return [word.letter === 'G' || word.letter === 'M' ? `${word.letter}${word.value}` : word.letter];
}
