import { formatQuantity } from '../cutting/format.ts';
import type { QuantityName } from '../cutting/quantities.ts';
import { QUANTITIES } from '../cutting/quantities.ts';
import { firstContactOf } from '../proveout/of-tool.ts';
import { factRows, lineSums, standing, windowSources } from '../report/line-words.ts';
import { sourceWords, spanWords, toolWords } from '../report/tool-words.ts';
import { CAUTION } from '../report/words.ts';
import { type LineFacts, lineFacts } from '../review/facts.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { isFedPerRevolution } from '../review/working.ts';
import { plain, table } from './markdown.ts';

/** The hover of a block: a short table, each number with where it stands in its window, and the sums behind it. */
export function blockHover(review: Review, line: number, uri: string): string | undefined {
  const used = toolChangedAt(review, line);
  if (used) return toolHover(review, used, uri);
  const facts = lineFacts(review.program, line);
  if (!facts?.values.feed_mm_min) return undefined;
  const sections = [factTable(review, facts)];
  const sums = lineSums(review, facts);
  const sources = windowSources(review, facts.tools[0]);
  if (sums.length > 0) sections.push(sums.map(sum => `- ${plain(sum)}`).join('\n'));
  if (sources !== '') sections.push(plain(sources));
  if (facts.missing.length > 0) sections.push(`Not known: ${plain(facts.missing.join('; '))}`);
  if (facts.runs > 1) sections.push(`This block runs ${facts.runs} times; least and most are shown.`);
  return sections.join('\n\n');
}

function factTable(review: Review, facts: LineFacts): string {
  const rows = factRows(review, facts).map(row => [row.title, `**${plain(row.value)}**`, plain(row.window)]);
  return tableWithoutBlank([`T${facts.tools[0] ?? '?'}`, 'here', 'window'], rows);
}

/** A last column in which nothing stands is left out. */
function tableWithoutBlank(heads: readonly string[], rows: readonly string[][]): string {
  const blank = rows.every(row => row.at(-1) === '');
  return blank
    ? table(
        heads.slice(0, -1),
        rows.map(row => row.slice(0, -1)),
      )
    : table(heads, rows);
}

function toolChangedAt(review: Review, line: number): ToolReview | undefined {
  return review.tools.find(used => used.number >= 0 && used.uses.some(use => use.change_line === line));
}

/** The hover of a tool change: what the tool is, how it is known, time, first contact as a sum of reasons. */
export function toolHover(review: Review, used: ToolReview, uri: string): string {
  const { program } = review;
  const { shown } = program;
  const contact = firstContactOf(review, used);
  const rows: string[][] = [];
  const row = (name: 'chip_load_mm' | 'feed_per_rev_mm' | 'surface_speed_m_min') => {
    const span = used[name];
    if (span)
      rows.push([
        QUANTITIES[name].title,
        `**${plain(spanWords(name, span, shown))}**`,
        plain(standing(review, used.number, name, span)),
      ]);
  };
  row(isFedPerRevolution(used.tool?.kind?.value) || !used.chip_load_mm ? 'feed_per_rev_mm' : 'chip_load_mm');
  row('surface_speed_m_min');
  if (used.cut_time_s !== undefined)
    rows.push(['cutting time', `**${plain(timeWords(used.cut_time_s, shown))}**`, 'at programmed feed']);
  const start =
    contact.percent === undefined
      ? `No first-contact figure: ${plain(contact.why_not ?? '')}`
      : `First contact: **feed ${contact.percent} %**, spindle as programmed, then ${contact.steps_percent.slice(1).join(', ')} % once it cuts steadily.\n\n${plain(contact.sentence)}`;
  const open =
    contact.percent === undefined || contact.not_counted.length === 0
      ? ''
      : `\n\nNot counted yet: ${plain(contact.not_counted.join('; '))}`;
  return [
    `**T${used.number}** ${plain(toolWords(used.tool, shown))}. ${knownFrom(used, uri)}`,
    tableWithoutBlank(['', 'programmed', 'window'], rows),
    plain(windowSources(review, used.number)),
    `${start}${open}`,
    `_${plain(CAUTION)}_`,
  ]
    .filter(section => section !== '')
    .join('\n\n');
}

/** How a tool is known, with a link to the place. */
function knownFrom({ tool, from }: ToolReview, uri: string): string {
  const origin = (tool?.diameter_mm ?? tool?.kind)?.origin;
  if (!from || !origin) return 'Nothing is known of it.';
  if (origin.from === 'comment' && origin.line !== undefined)
    return `Read from the [comment on line ${origin.line}](${uri}#L${origin.line}).`;
  const [, key, file] = /^(.*) in (\S+)$/.exec(origin.where) ?? [];
  if (!key || !file) return `Known from: ${plain(sourceWords(from))} (${plain(origin.where)}).`;
  const name = decodeURIComponent(file.slice(file.replaceAll('\\', '/').lastIndexOf('/') + 1));
  const link = /^[a-z][a-z0-9+.-]+:\//i.test(file) ? `[${plain(name)}](${file})` : plain(name);
  return `Known from: ${plain(sourceWords(from))}, ${plain(key)} in ${link}.`;
}

function timeWords(time_s: number, shown: 'inch' | 'mm'): string {
  return formatQuantity('time_s' satisfies QuantityName, time_s, shown);
}
