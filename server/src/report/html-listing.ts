import { formatQuantity } from '../cutting/format.ts';
import { firstContactOf } from '../proveout/of-tool.ts';
import type { Finding, SilencedFinding } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { type Html, html } from './html-text.ts';
import { byLine, listingPieces } from './listing.ts';
import { severityMark } from './severity-mark.ts';
import { feedWords, toolWords } from './tool-words.ts';
import { count } from './words.ts';

/** A line longer than this is cut in the listing. */
const MOST_COLUMNS = 400;
/** Most findings shown beside one line. */
const MOST_BESIDE = 20;

/** The program with its findings beside their lines. */
export function listingTable(review: Review): Html {
  const found = byLine(review.findings);
  const silenced = byLine(review.silenced);
  const rows = listingPieces(review).map(piece => {
    if ('left_out' in piece) return leftOut(piece.from, piece.left_out);
    const lines: Html[] = [];
    for (let line = piece.from; line < piece.end; line++)
      lines.push(lineRow(review, line, found.get(line) ?? [], silenced.get(line) ?? []));
    return lines;
  });
  return html`<div class="wide" tabindex="0" role="region" aria-label="Program listing"><table class="listing">
<caption>${count(review.program.lineCount, 'line')}. What is marked stands beside its line.</caption>
<thead><tr><th scope="col">line</th><th scope="col">block</th><th scope="col">to know here</th></tr></thead>
<tbody>${rows}</tbody></table></div>`;
}

function leftOut(from: number, lines: number): Html {
  return html`<tr class="cut"><td></td><td colspan="2">${count(lines, 'line')} from line ${from + 1} on left out here: no finding and no tool change stands there.</td></tr>\n`;
}

function lineRow(
  review: Review,
  line: number,
  found: readonly Finding[],
  silenced: readonly SilencedFinding[],
): Html {
  const text = review.program.reading.text.lineText(line);
  const used = review.tools.find(tool => tool.uses.some(use => use.change_line === line && use.number >= 0));
  const more = found.length - MOST_BESIDE;
  const notes = [
    used && toolNote(review, used),
    found
      .slice(0, MOST_BESIDE)
      .map(finding => html`<div>${severityMark(finding.severity)} ${finding.message}</div>`),
    more > 0 && html`<div>and ${more} more on this line</div>`,
    silenced
      .slice(0, MOST_BESIDE)
      .map(({ code, reason }) => html`<div class="soft">silenced ${code}: ${reason}</div>`),
  ];
  const classes = [used ? 'change' : '', found.length > 0 ? 'found' : ''].join(' ').trim();
  return html`<tr id="L${line + 1}" class="${classes}"><th scope="row">${line + 1}</th><td><code>${marked(text, found)}</code></td><td>${notes}</td></tr>\n`;
}

function toolNote(review: Review, used: ToolReview): Html {
  const { shown } = review.program;
  const { percent } = firstContactOf(review, used);
  const parts = [
    toolWords(used.tool, shown),
    feedWords(used, shown),
    used.surface_speed_m_min ? formatQuantity('surface_speed_m_min', used.surface_speed_m_min[1], shown) : '',
    percent === undefined ? '' : `first contact feed ${percent} %`,
  ];
  return html`<div>T${used.number}: ${parts.filter(part => part !== '').join(' · ')}</div>`;
}

/** The block with the words that findings point at underlined. */
function marked(text: string, found: readonly Finding[]): Html {
  const shown = text.length > MOST_COLUMNS ? `${text.slice(0, MOST_COLUMNS)} …` : text;
  const pieces: (string | Html)[] = [];
  let at = 0;
  const spans = found
    .filter(({ line, end_line, column, end_column }) => end_line === line && end_column > column)
    .sort((a, b) => a.column - b.column);
  for (const { column, end_column } of spans) {
    const from = Math.max(at, column);
    if (from >= end_column || from >= shown.length) continue;
    pieces.push(shown.slice(at, from), html`<mark>${shown.slice(from, end_column)}</mark>`);
    at = end_column;
  }
  pieces.push(shown.slice(at));
  return html`${pieces}`;
}
