import type { ProveoutSheet, ProveoutTool } from '../proveout/sheet.ts';
import type { Review } from '../review/review.ts';
import { type Html, html } from './html-text.ts';
import type { FileFacts } from './json.ts';
import { page } from './page.ts';
import { PROVEOUT_STYLE } from './proveout-style.ts';
import {
  approachSteps,
  gaugeRows,
  IF_NOT,
  NOT_SEEN,
  type OffsetRow,
  offsetRows,
  placeWord,
  positionWords,
  soundWords,
  spindleWords,
  squealWords,
  startWords,
  stopWords,
  toolLine,
  toolName,
  watchWords,
} from './proveout-words.ts';
import { settledWords } from './settled-words.ts';
import { verdictLine } from './verdict-line.ts';
import { CAUTION } from './words.ts';

/** Rows for what is measured on the first part. */
const ARTICLE_ROWS = 5;
/** Most tools that a page lists. */
const MOST_TOOLS = 200;

/** The prove-out sheet as one page to print: blanks to write on, black on white. */
export function proveoutHtml(review: Review, sheet: ProveoutSheet, file: FileFacts): string {
  const name = file.path.slice(file.path.replaceAll('\\', '/').lastIndexOf('/') + 1);
  return page({
    title: `Prove-out of ${name}`,
    style: PROVEOUT_STYLE,
    body: [
      html`<header><h1>Prove-out of ${name}</h1>
<p>${settledWords(review.program)}, sha256 <span class="code">${file.sha256.slice(0, 12)}</span>. <strong>${verdictLine(review)}</strong></p>
<p class="fill">Machine ${blank()} Part ${blank()} Date ${blank()} By ${blank()}</p></header>
<main>`,
      html`<div class="two"><section><h2>Before each first contact</h2><ol>${approachSteps(review.program).map(step => html`<li>${step}</li>`)}</ol></section>
<section><h2>If it does not sound so</h2><dl>${IF_NOT.map(([sound, what]) => html`<div><dt>${sound}</dt><dd>${what}</dd></div>`)}</dl></section></div>`,
      offsets(review, sheet),
      tools(review, sheet),
      html`<div class="two">${measured(review, sheet)}${restarts(sheet)}</div>`,
      html`</main>
<footer><p class="caution">${CAUTION}</p></footer>`,
    ],
  });
}

/** Words that stay whole: a minus is no place to break a number. */
function unbroken(text: string): Html {
  return html`${text.split(' ').map((word, i) => html`${i > 0 && ' '}<span class="nb">${word}</span>`)}`;
}

function blank(words = ''): Html {
  return html`<span class="blank">${words}</span>`;
}

/** Rows from which on the offsets stand in two columns. */
const TWO_COLUMNS_FROM = 5;

function offsets(review: Review, sheet: ProveoutSheet): Html {
  const rows = offsetRows(review, sheet);
  const half = rows.length >= TWO_COLUMNS_FROM ? Math.ceil(rows.length / 2) : rows.length;
  const tables = [rows.slice(0, half), rows.slice(half)].filter(part => part.length > 0).map(offsetTable);
  return html`<section class="keep"><h2>Offsets</h2><p><strong>${NOT_SEEN}</strong></p>
<div class="${tables.length > 1 ? 'two' : 'one'}">${tables}</div></section>`;
}

function offsetTable(rows: readonly OffsetRow[]): Html {
  return html`<table class="offsets"><thead><tr><th scope="col">offset</th><th scope="col">expected</th><th scope="col">seen</th></tr></thead>
<tbody>${rows.map(({ name, expected }) => html`<tr><th scope="row">${name}</th><td>${expected}</td><td class="write"></td></tr>`)}</tbody></table>`;
}

function tools(review: Review, sheet: ProveoutSheet): Html {
  if (sheet.tools.length === 0)
    return html`<section><h2>Tools</h2><p>No tool cuts in this program.</p></section>`;
  const more = sheet.tools.length - MOST_TOOLS;
  return html`<section><h2>Tools in order of use</h2><table class="tools">
<thead><tr><th scope="col">tool</th><th scope="col">spindle as programmed, rapid 5 to 25 %</th><th scope="col">start and steps up</th><th scope="col">first contact</th><th scope="col">ran at</th></tr></thead>
${sheet.tools.slice(0, MOST_TOOLS).map(tool => toolRows(review, tool))}</table>
${more > 0 && html`<p>${more} more tools are not listed.</p>`}</section>`;
}

function toolRows(review: Review, tool: ProveoutTool): Html {
  const { shown, kind } = review.program;
  const { contact, touch } = tool;
  const open =
    contact.percent !== undefined && contact.not_counted.length > 0
      ? ` (not counted: ${contact.not_counted.join('; ')})`
      : '';
  const place = touch
    ? html`line ${touch.line + 1}, ${placeWord(touch, kind)} ${unbroken(positionWords(touch, shown, kind))}`
    : html`never feeds`;
  return html`<tbody class="keep"><tr class="main"><th scope="row">${toolName(tool)} <span class="what">${toolLine(tool, shown)}</span></th><td>${spindleWords(tool.spindles, shown)}</td><td><strong>${startWords(tool)}</strong></td><td>${place}</td><td class="write">${contact.percent === undefined ? '' : contact.steps_percent.map(step => html`<span class="tick">${step}</span> `)}</td></tr>
<tr><td colspan="4"><b>Why</b> ${contact.sentence}${open}. <b>Sound</b> ${soundWords(tool, shown)}. <b>If not</b> ${squealWords(tool, shown)}.${
    tool.watch.length > 0 &&
    html` <b>Watch</b> ${tool.watch.map(watch => watchWords(watch, shown)).join('; ')}${tool.more_watch > 0 ? `; ${tool.more_watch} more in the review` : ''}.`
  }</td><td class="write"></td></tr></tbody>\n`;
}

function measured(review: Review, sheet: ProveoutSheet): Html {
  const stops = sheet.stops.map(
    stop => html`<tr><td>${stopWords(stop)}</td><td></td><td class="write"></td></tr>`,
  );
  const gauges = gaugeRows(sheet, review.program.shown).map(
    row =>
      html`<tr><td>${row}</td><td>go <span class="box"></span> no-go <span class="box"></span></td><td class="write"></td></tr>`,
  );
  const empty = Array.from(
    { length: ARTICLE_ROWS },
    () => html`<tr class="empty"><td></td><td></td><td></td></tr>`,
  );
  return html`<section class="keep"><h2>First article</h2>
<table class="article"><caption>${sheet.stops.length === 0 ? 'The program has no measuring stop.' : 'Stops of the program first.'}${sheet.more_stops && ' More stops than are listed.'}</caption>
<thead><tr><th scope="col">what</th><th scope="col">drawing</th><th scope="col">measured</th></tr></thead>
<tbody>${stops}${gauges}${empty}</tbody></table></section>`;
}

function restarts(sheet: ProveoutSheet): Html {
  const rows = sheet.restarts.map(
    ({ tool, line, restore, stated }) =>
      html`<tr><th scope="row">${line + 1}</th><td>${tool >= 0 ? `T${tool}` : ''}</td><td class="code">${restore.join(' ') || 'nothing'}</td><td class="code">${stated.join(' ') || 'nothing more'}</td></tr>`,
  );
  return html`<section class="keep"><h2>Start again</h2>
<table class="restart"><caption>Retract first. A start in the middle of a tool is not listed: go back to its tool change.</caption>
<thead><tr><th scope="col">line</th><th scope="col">tool</th><th scope="col">restore by hand before it</th><th scope="col">the program then states</th></tr></thead>
<tbody>${rows}</tbody></table>
${sheet.more_restarts > 0 && html`<p>${sheet.more_restarts} more uses are not listed.</p>`}</section>`;
}
