import { formatTime } from '../cutting/format.ts';
import { firstContactOf } from '../proveout/of-tool.ts';
import { lineFacts } from '../review/facts.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { type Html, html } from './html-text.ts';
import { factRows, lineSums, windowSources } from './line-words.ts';
import { feedWords, sourceWords, spanWords, toolWords } from './tool-words.ts';

/** The tools in order of use: what each is, how it is known, what it does, how to start it. */
export function toolsTable(review: Review): Html {
  const { shown } = review.program;
  const used = calledTools(review);
  if (used.length === 0) return html`<p>No tool is called in this program.</p>`;
  const rows = used.map(tool => {
    const contact = firstContactOf(review, tool);
    return html`<tr><th scope="row">T${tool.number}</th><td>${toolWords(tool.tool, shown)}</td><td>${tool.from ? sourceWords(tool.from) : 'nothing'}</td><td>${feedWords(tool, shown) || 'not known'}</td><td>${spanWords('surface_speed_m_min', tool.surface_speed_m_min, shown) || 'not known'}</td><td>${tool.time_s === undefined ? 'not known' : formatTime(tool.time_s)}</td><td>${contact.percent === undefined ? 'none' : `feed ${contact.percent} %`}</td></tr>\n`;
  });
  const heads = [
    'tool',
    'what it is',
    'known from',
    'feed at the edge',
    'surface speed',
    'time',
    'first contact',
  ];
  return html`<div class="wide" tabindex="0" role="region" aria-label="Table of tools"><table>
<thead><tr>${heads.map(head => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${rows}</tbody></table></div>`;
}

/** The sums behind each tool's figures, folded up. */
export function toolSums(review: Review): Html {
  return html`${calledTools(review).map(tool => sumsOf(review, tool))}`;
}

function calledTools(review: Review): ToolReview[] {
  return review.tools.filter(tool => tool.number >= 0);
}

function sumsOf(review: Review, used: ToolReview): Html {
  const contact = firstContactOf(review, used);
  const line = mainLine(used);
  const facts = line === undefined ? undefined : lineFacts(review.program, line);
  const rows = facts ? factRows(review, facts) : [];
  const sums = facts ? lineSums(review, facts) : [];
  const windows = windowSources(review, used.number);
  const heading = `T${used.number} ${toolWords(used.tool, review.program.shown)}`;
  return html`<details open class="keep"><summary>${heading}</summary>
${
  rows.length > 0 &&
  html`<table><caption>Line <a href="#L${(line ?? 0) + 1}">${(line ?? 0) + 1}</a>, in the run that most of its cutting is done with</caption>
<thead><tr><th scope="col">figure</th><th scope="col">here</th><th scope="col">in its window</th></tr></thead>
<tbody>${rows.map(row => html`<tr><th scope="row">${row.title}</th><td>${row.value}</td><td>${row.window}</td></tr>`)}</tbody></table>`
}
${sums.length > 0 && html`<ul class="sums">${sums.map(sum => html`<li>${sum}</li>`)}</ul>`}
${windows !== '' && html`<p>${windows}</p>`}
${facts && facts.missing.length > 0 && html`<p>Not known: ${facts.missing.join('; ')}.</p>`}
<p>First contact${contact.percent === undefined ? '' : ` ${contact.percent} %`}: ${contact.sentence}</p>
${contact.percent !== undefined && contact.not_counted.length > 0 && html`<p>Not counted yet: ${contact.not_counted.join('; ')}.</p>`}
</details>\n`;
}

/** First cutting line of the run that most of the tool's cutting length is done with. */
function mainLine(used: ToolReview): number | undefined {
  let length = 0;
  let line: number | undefined;
  for (const use of used.uses)
    for (const part of use.parts)
      if (part.cut_steps > 0 && part.cut_length_mm > length) {
        length = part.cut_length_mm;
        line = part.first_cut_line;
      }
  return line;
}
