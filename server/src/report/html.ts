import type { Finding } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import { listingTable } from './html-listing.ts';
import { type Html, html } from './html-text.ts';
import { toolSums, toolsTable } from './html-tools.ts';
import type { FileFacts } from './json.ts';
import { listingPieces } from './listing.ts';
import { moneyWords } from './money-words.ts';
import { page } from './page.ts';
import { settledWords } from './settled-words.ts';
import { severityMark } from './severity-mark.ts';
import { verdictLine } from './verdict-line.ts';
import { CAUTION, count } from './words.ts';

/** Most findings in the list of a page; the rest is counted. */
const MOST_FINDINGS = 1000;

/** The review as one page: no outside link, no script, program text escaped, made for screen and paper. */
export function reviewHtml(review: Review, file: FileFacts): string {
  const name = file.path.slice(file.path.replaceAll('\\', '/').lastIndexOf('/') + 1);
  return page({
    title: `Review of ${name}`,
    style: STYLE,
    body: [
      html`<a class="skip" href="#main">To the review</a>
<header><h1>Review of ${name}</h1>
<p>${settledWords(review.program)}, ${count(review.program.lineCount, 'line')}. Tapeproof ${file.version}, program sha256 <span class="code">${file.sha256.slice(0, 16)}</span>.</p>
<p class="verdict">${verdictLine(review)}</p>
<p class="caution">${CAUTION}</p></header>`,
      html`<nav aria-label="Parts of this page"><ul>${SECTIONS.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li> `)}</ul></nav>`,
      html`<main id="main">`,
      section('findings', findingsList(review)),
      section('not-checked', notChecked(review)),
      section('silenced', silencedList(review)),
      section('time', html`<ul>${moneyWords(review).map(words => html`<li>${words}</li>`)}</ul>`),
      section('tools', toolsTable(review)),
      section('sums', toolSums(review)),
      section('program', listingTable(review)),
      html`</main>
<footer><p class="soft">${CAUTION}</p></footer>`,
    ],
  });
}

const SECTIONS = [
  ['findings', 'Findings'],
  ['not-checked', 'Not checked'],
  ['silenced', 'Silenced'],
  ['time', 'Time and money'],
  ['tools', 'Tools'],
  ['sums', 'The sums'],
  ['program', 'Program'],
] as const;

function section(id: (typeof SECTIONS)[number][0], content: Html): Html {
  const title = SECTIONS.find(([name]) => name === id)?.[1];
  return html`<section aria-labelledby="${id}"><h2 id="${id}">${title}</h2>
${content}</section>`;
}

function findingsList(review: Review): Html {
  if (review.findings.length === 0) return html`<p>None.</p>`;
  const more = review.findings.length - MOST_FINDINGS;
  const listed = listedLines(review);
  return html`<ol class="findings">${review.findings.slice(0, MOST_FINDINGS).map(finding => findingItem(finding, listed))}</ol>
${more > 0 && html`<p>${more} more are not listed here, none of them worse than those above.</p>`}`;
}

/** True for lines that the listing shows, so that no link leads nowhere. */
function listedLines(review: Review): (line: number) => boolean {
  const pieces = listingPieces(review);
  return line => pieces.some(piece => 'end' in piece && piece.from <= line && line < piece.end);
}

function findingItem(finding: Finding, listed: (line: number) => boolean): Html {
  const { file, line, column } = finding;
  const place =
    file !== undefined
      ? html`${file}, line ${line + 1}`
      : listed(line)
        ? html`<a href="#L${line + 1}">line ${line + 1}</a>`
        : html`line ${line + 1}`;
  return html`<li class="keep">${severityMark(finding.severity)} ${place}, column ${column + 1}${finding.tool === undefined || finding.message.includes(`T${finding.tool}`) ? '' : `, T${finding.tool}`}: ${finding.message} <span class="soft code">${finding.code}</span>
${finding.related?.length ? html`<ul>${finding.related.slice(0, 20).map(place => html`<li>line ${place.line + 1}: ${place.message}</li>`)}</ul>` : ''}
${finding.fixes?.length ? html`<ul>${finding.fixes.map(fix => html`<li>Way out: ${fix.title}</li>`)}</ul>` : ''}
${finding.source ? html`<div class="soft">Source: ${finding.source}</div>` : ''}</li>\n`;
}

function notChecked(review: Review): Html {
  if (review.not_checked.length === 0) return html`<p>Every rule had what it needs.</p>`;
  return html`<ul>${review.not_checked.map(why => html`<li>${why}</li>`)}</ul>`;
}

function silencedList(review: Review): Html {
  if (review.silenced.length === 0) return html`<p>Nothing is silenced.</p>`;
  return html`<ul>${review.silenced.slice(0, MOST_FINDINGS).map(finding => html`<li>line ${finding.line + 1} <span class="code">${finding.code}</span>: ${finding.reason} <span class="soft">(${finding.message})</span></li>`)}</ul>`;
}

const STYLE = `
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 0.2rem 1.2rem; }
.verdict { font-weight: 700; font-size: 1.1rem; }
.sev { font-weight: 700; white-space: nowrap; }
.findings > li { margin: 0.5rem 0; }
.listing { width: 100%; }
.listing th { white-space: nowrap; width: 1%; }
.listing thead th + th { width: auto; }
.listing td:nth-child(2) { width: 50%; }
.listing tbody th { font-weight: 400; text-align: right; color: var(--soft); font-variant-numeric: tabular-nums; }
.listing tbody tr + tr > * { border-top: 0; }
.listing td, .listing tbody th { padding-top: 0; padding-bottom: 0; }
.listing tr.change > * { border-top: 1px solid var(--line); padding-top: 0.25rem; font-weight: 700; }
.listing tr.change > td:last-child { font-weight: 400; }
.listing tr.found { background: var(--band); }
.listing tr.cut td { color: var(--soft); font-style: italic; padding: 0.3rem 0; }
.listing code { white-space: pre-wrap; }
tr:target { outline: 2px solid var(--ink); }
mark { background: none; color: inherit; text-decoration: underline wavy; text-underline-offset: 3px; }
details { border: 1px solid var(--line); padding: 0.3rem 0.7rem; margin: 0.5rem 0; }
summary { font-weight: 700; cursor: pointer; }
@media print { nav { display: none; } body { padding: 0; font-size: 9.5pt; } @page { margin: 14mm; } }
`;
