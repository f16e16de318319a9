import { formatTime } from '../cutting/format.ts';
import { firstContactOf } from '../proveout/of-tool.ts';
import { type Finding, SEVERITIES } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import { programTimes } from '../review/times.ts';
import { settledWords } from './settled-words.ts';
import { feedWords, sourceWords, spanWords, toolWords } from './tool-words.ts';
import { CAUTION, columns, count, NOTHING_FOUND, wrap } from './words.ts';

export interface TextOptions {
  /** Path as the person gave it. */
  path: string;
  /** Lines to list, from 1; undefined lists none. */
  lines?: { from: number; to: number };
}

/** The review as readable columns. */
export function reviewText(review: Review, options: TextOptions): string {
  const blocks = [head(review, options.path), toolTable(review)];
  if (review.findings.length > 0)
    blocks.push(review.findings.map(f => findingLine(f, options.path)).join('\n'));
  if (review.silenced.length > 0)
    blocks.push(
      ['Silenced:', ...review.silenced.map(f => `  line ${f.line + 1}  ${f.code}: ${f.reason}`)].join('\n'),
    );
  blocks.push(verdict(review));
  if (review.assumed.length > 0)
    blocks.push(
      ['Taken for granted:', ...review.assumed.map(what => wrap(`- ${what}`, 100, '  '))].join('\n'),
    );
  blocks.push(CAUTION_BLOCK);
  if (options.lines) blocks.unshift(listing(review, options.lines.from, options.lines.to));
  return `${blocks.filter(block => block !== '').join('\n\n')}\n`;
}

const CAUTION_BLOCK = wrap(CAUTION, 100);

function head(review: Review, path: string): string {
  const times = programTimes(review);
  const time =
    times.time_s === undefined
      ? 'time not known'
      : `${formatTime(times.time_s)} ${times.programmed_time_s === undefined ? 'at programmed feed' : 'at the acceleration of the machine'}`;
  const quote = times.quoted_s === undefined ? '' : `, quoted ${formatTime(times.quoted_s)}`;
  const lines = count(review.program.lineCount, 'line');
  return `${path}\n${settledWords(review.program)}, ${lines}, ${time}${quote}`;
}

function toolTable(review: Review): string {
  const { program } = review;
  const used = review.tools.filter(tool => tool.number >= 0);
  if (used.length === 0) return 'No tool is called in this program.';
  const rows = [
    ['tool', 'what it is', 'known from', 'feed at the edge', 'surface speed', 'time', 'first contact'],
  ];
  for (const tool of used) {
    const contact = firstContactOf(review, tool);
    rows.push([
      `T${tool.number}`,
      toolWords(tool.tool, program.shown),
      tool.from ? sourceWords(tool.from) : 'nothing',
      feedWords(tool, program.shown) || 'not known',
      spanWords('surface_speed_m_min', tool.surface_speed_m_min, program.shown) || 'not known',
      tool.time_s === undefined ? 'not known' : formatTime(tool.time_s),
      contact.percent === undefined ? 'none' : `feed ${contact.percent} %`,
    ]);
  }
  return columns(rows).join('\n');
}

/** `file:line:column severity code message`, one line a finding. */
export function findingLine(finding: Finding, path: string): string {
  const file = finding.file ?? path;
  return `${file}:${finding.line + 1}:${finding.column + 1} ${finding.severity} ${finding.code} ${finding.message}`;
}

/** What stands against the program, what was not checked. */
export function verdict(review: Pick<Review, 'findings' | 'not_checked' | 'complete'>): string {
  const counts = SEVERITIES.map(severity => ({
    severity,
    n: review.findings.filter(f => f.severity === severity).length,
  }));
  const errors = counts[0].n;
  const rest = counts
    .filter(c => c.n > 0 && c.severity !== 'error')
    .map(c => (c.severity === 'information' ? `${c.n} information` : count(c.n, c.severity)));
  const lines = [errors === 0 ? NOTHING_FOUND : `${count(errors, 'error')} found.`];
  if (rest.length > 0) lines[0] += ` ${rest.join(', ')}.`;
  if (!review.complete) lines.push('The review is incomplete: a bound was reached before the program ended.');
  if (review.not_checked.length > 0)
    lines.push('Not checked:', ...review.not_checked.map(why => wrap(`- ${why}`, 100, '  ')));
  return lines.join('\n');
}

function listing(review: Review, from: number, to: number): string {
  const lines: string[] = [];
  const { text } = review.program.reading;
  for (let line = Math.max(1, from); line <= Math.min(to, review.program.lineCount); line++)
    lines.push(`${String(line).padStart(6)}  ${text.lineText(line - 1)}`);
  return lines.join('\n');
}
