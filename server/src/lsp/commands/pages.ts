import { formatTime } from '../../cutting/format.ts';
import { proveoutSheet } from '../../proveout/sheet.ts';
import { reviewHtml } from '../../report/html.ts';
import { proveoutHtml } from '../../report/proveout-html.ts';
import { CAUTION, count, NOTHING_FOUND } from '../../report/words.ts';
import type { Finding } from '../../review/finding.ts';
import type { Review } from '../../review/review.ts';
import { programTimes } from '../../review/times.ts';
import { commandUri, plain } from '../markdown.ts';
import type { ServerCommand } from './command.ts';
import { fileFacts } from './file-facts.ts';

/** Most findings named on the page; the rest is counted. */
const MOST_NAMED = 20;

/** One page with one answer: what stops this program, what was not checked, the time, the caution. */
export const checkBeforeSending: ServerCommand = {
  name: 'checkBeforeSending',
  run: ({ job, params, server }) => {
    const name = nameOf(params.uri);
    const content = checkPage(job.review, name, job.busy, server.publisher.links ? params.uri : undefined);
    return { do: 'page', title: `Check: ${name}`, format: 'markdown', content, file: `${name}.check.html` };
  },
};

/** The whole review as a page that prints. */
export const showReport: ServerCommand = {
  name: 'showReport',
  async run({ job, params }) {
    const name = nameOf(params.uri);
    const content = reviewHtml(job.review, await fileFacts(name, job.program.getText()));
    return { do: 'page', title: `Review: ${name}`, format: 'html', content, file: `${name}.review.html` };
  },
};

/** The sheet for the machine, as a page that prints. */
export const showProveout: ServerCommand = {
  name: 'showProveout',
  async run({ job, params }) {
    const name = nameOf(params.uri);
    const sheet = proveoutSheet(job.review);
    const content = proveoutHtml(job.review, sheet, await fileFacts(name, job.program.getText()));
    return {
      do: 'page',
      title: `Prove-out: ${name}`,
      format: 'html',
      content,
      file: `${name}.proveout.html`,
    };
  },
};

/**
 * The page of `checkBeforeSending` as markdown; `busy` while the stock is still being worked out. With the address of the
 * program each line and each code is a link.
 */
export function checkPage(review: Review, name: string, busy: boolean, uri?: string): string {
  const stops = review.findings.filter(finding => finding.severity === 'error');
  const others = review.findings.filter(finding => finding.severity !== 'error');
  const gaps = [
    ...(busy ? ['the stock is still being worked out: run this again in a moment'] : []),
    ...(review.complete ? [] : ['a bound was reached before the program ended']),
    ...review.not_checked,
  ];
  return [
    `# ${stops.length === 0 ? plain(NOTHING_FOUND) : `Do not send: ${count(stops.length, 'error')}`}`,
    `${plain(name)}. ${timeWords(review)}.`,
    section(
      'What stops it',
      stops.map(finding => findingLine(finding, uri)),
    ),
    section(
      'Worth a look',
      others.map(finding => findingLine(finding, uri)),
    ),
    section(
      'Silenced',
      review.silenced.map(({ line, code, reason }) => plain(`line ${line + 1}, ${code}: ${reason}`)),
    ),
    section('Not checked', gaps.map(plain)),
    `---\n\n${plain(CAUTION)}`,
  ]
    .filter(block => block !== '')
    .join('\n\n');
}

function section(title: string, lines: readonly string[]): string {
  if (lines.length === 0) return '';
  const more = lines.length - MOST_NAMED;
  const rest = more > 0 ? [`and ${more} more, in the list of problems`] : [];
  return [`## ${title}`, '', ...[...lines.slice(0, MOST_NAMED), ...rest].map(line => `- ${line}`)].join('\n');
}

function findingLine({ line, severity, code, message, file }: Finding, uri: string | undefined): string {
  const place = `line ${line + 1}`;
  const at =
    file !== undefined
      ? plain(`${file}, ${place}`)
      : uri === undefined
        ? place
        : `[${place}](${commandUri('vscode.open', [`${uri}#L${line + 1}`])})`;
  const page =
    uri === undefined ? plain(code) : `[${plain(code)}](${commandUri('tapeproof.explain', [uri, code])})`;
  return `${at}, ${severity}: ${plain(message)} (${page})`;
}

function timeWords(review: Review): string {
  const { time_s, quoted_s } = programTimes(review);
  const time = time_s === undefined ? 'Time not known' : `${formatTime(time_s)} at programmed feed`;
  return plain(quoted_s === undefined ? time : `${time}, quoted ${formatTime(quoted_s)}`);
}

const nameOf = (uri: string): string => decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
