import { settledWords } from '../report/settled-words.ts';
import { sourceWords } from '../report/tool-words.ts';
import { count } from '../report/words.ts';
import type { Review } from '../review/review.ts';
import type { Job } from './jobs.ts';
import type { Status } from './protocol.ts';

/** What the status item says: how the program was read and how the setup is known. */
export function statusOf({ program: open, review, sheets, busy }: Job, uri: string): Status {
  const { program } = review;
  const used = review.tools.filter(tool => tool.number >= 0);
  const comment = used.filter(tool => tool.from === 'comment').length;
  const unknown = used.filter(tool => tool.from === undefined).length;
  const setup = sheets.sheet ? 'setup sheet' : 'no setup sheet';
  const known =
    used.length === 0
      ? 'no tool called'
      : comment > 0
        ? `${comment} of ${count(used.length, 'tool')} read from comments`
        : unknown > 0
          ? `${unknown} of ${count(used.length, 'tool')} not known`
          : `${count(used.length, 'tool')} known`;
  const { settled } = program.reading;
  const read = `${settledWords(program)}, ${setup}: ${known}`;
  const large = largeWords(program.lineCount, program.reading.text.length);
  const why = [settled.kind, settled.units, settled.dialect]
    .map(item => item.why)
    .filter(words => words !== '');
  const tools = used.map(tool => `T${tool.number}: ${tool.from ? sourceWords(tool.from) : 'not known'}`);
  const errors = review.findings.filter(finding => finding.severity === 'error').length;
  return {
    uri,
    version: open.version,
    // The editor cuts a long row and its command with it: what was read moves to the detail.
    text: large || read,
    detail: [...(large ? [read] : []), ...stockWords(review), ...why, ...tools].join('; '),
    severity: errors > 0 ? 'error' : comment + unknown > 0 ? 'warning' : 'information',
    busy,
  };
}

/** What is to be said of the stock: why there is none, or that it is assumed. */
function stockWords({ program }: Review): string[] {
  if (program.uncut_why !== undefined) return [`no stock: ${program.uncut_why}`];
  const { cuts } = program;
  return cuts?.assumed ? [cuts.assumed_why ?? 'stock assumed from the program'] : [];
}

/** Above these the editor leaves out folding, wrapping and colour by grammar, decided when the file is opened. */
const MOST_LINES = 300_000;
const MOST_CHARACTERS = 20 * 1024 * 1024;

/** What the editor does not do for a file of this size, and why; hints and problems stay. Empty for others. */
export function largeWords(lines: number, characters: number): string {
  const over =
    lines > MOST_LINES ? '300,000 lines' : characters > MOST_CHARACTERS ? '20 million characters' : '';
  return over === '' ? '' : `no folding or wrapping over ${over}`;
}
