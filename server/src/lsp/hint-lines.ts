import { formatQuantity } from '../cutting/format.ts';
import { firstContactOf } from '../proveout/of-tool.ts';
import { spanWords, toolWords } from '../report/tool-words.ts';
import { type LineFacts, lineFacts } from '../review/facts.ts';
import type { Review } from '../review/review.ts';
import { mayChangeTool } from '../review/tool-calls.ts';
import { isDoubtful } from '../review/tool-doubt.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { isFedPerRevolution } from '../review/working.ts';
import { alikeLines, hasFeedOrSpeed } from './hint-scan.ts';

export type HintLevel = 'off' | 'changes' | 'every';

/** One hint at the end of a block. */
export interface LineHint {
  /** 0-based. */
  line: number;
  text: string;
  /** What the hint says, in a sentence, for who points at it. */
  means?: string;
  /** Command that a click runs, with its arguments. */
  ask?: { command: string; args: unknown[]; title: string };
}

/** The editor cuts a line's hints at this many characters. */
export const HINT_BUDGET = 43;

/** A block that only sets speed or feed says what the first cut within so many lines runs with. */
export const HINT_REACH = 30;

/**
 * Hints for the lines from `from` to `to` (0-based, inclusive). While only the first `right_lines` lines have been read
 * again after an edit, what rests on the whole program is left out.
 */
export function hintLines(
  review: Review,
  level: HintLevel,
  from: number,
  to: number,
  right_lines = Number.POSITIVE_INFINITY,
): LineHint[] {
  if (level === 'off') return [];
  const early = right_lines !== Number.POSITIVE_INFINITY;
  const hints = new Map<number, LineHint>();
  const later = new Set<number>();
  for (const use of mayChangeTool(review.program.reading, from, to) ? review.program.uses : []) {
    const line = use.change_line;
    if (use.number < 0 || line < from || line > to) continue;
    if (early) {
      later.add(line);
      continue;
    }
    const used = review.tools.find(tool => tool.number === use.number);
    if (used) hints.set(line, toolHint(review, used, line));
  }
  const last = Math.min(to, review.program.lineCount - 1, right_lines - HINT_REACH - 1);
  const alike = level === 'every' ? alikeLines(review.program, from, last) : undefined;
  const texts = new Map<number, string>();
  for (let line = Math.max(0, from); line <= last; line++) {
    if (hints.has(line) || later.has(line)) continue;
    const run = alike?.get(line);
    const text =
      (run !== undefined ? texts.get(run) : undefined) ?? fit(blockHint(review, level, line, early));
    if (run !== undefined) texts.set(run, text);
    if (text !== '') hints.set(line, { line, text });
  }
  return [...hints.values()].sort((a, b) => a.line - b.line);
}

function toolHint(review: Review, used: ToolReview, line: number): LineHint {
  const { shown } = review.program;
  const contact = firstContactOf(review, used);
  const feed = mainFeedWords(used, shown);
  const speed = mainWords('surface_speed_m_min', used, shown);
  const words = [feed, speed];
  if (contact.percent !== undefined) words.push(`feed ${contact.percent} %`);
  const needsTeeth =
    !used.chip_load_mm && !isFedPerRevolution(used.tool?.kind?.value) && review.program.kind !== 'lathe';
  const text = words.filter(word => word !== '').join(' · ');
  const doubtful = isDoubtful(used);
  if (doubtful || (needsTeeth && used.uses.some(use => use.cuts))) {
    const what = used.tool?.diameter_mm && !doubtful ? 'teeth?' : 'which tool?';
    return {
      line,
      text: fit([feed, what, speed].filter(word => word !== '').join(' · ')),
      ask: { command: 'tapeproof.confirmTool', args: [used.number], title: `Say what T${used.number} is` },
    };
  }
  return {
    line,
    text: fit(text === '' ? toolWords(used.tool, shown) : text),
    ...(contact.percent === undefined ? {} : { means: meansOf(used.number, contact.percent) }),
  };
}

const meansOf = (number: number, percent: number): string =>
  `T${number} as programmed; feed ${percent} % is the feed override for its first contact. Point at the block for the sums.`;

/** Chip load that most of the cutting length runs with; feed per revolution where teeth do not share it or are not known. */
function mainFeedWords(used: ToolReview, shown: 'inch' | 'mm'): string {
  const perRev = isFedPerRevolution(used.tool?.kind?.value) || !Number.isFinite(used.main?.chip_load_mm);
  return mainWords(perRev ? 'feed_per_rev_mm' : 'chip_load_mm', used, shown);
}

function mainWords(
  name: 'chip_load_mm' | 'feed_per_rev_mm' | 'surface_speed_m_min',
  used: ToolReview,
  shown: 'inch' | 'mm',
): string {
  const value = used.main?.[name];
  return value !== undefined && Number.isFinite(value) ? formatQuantity(name, value, shown) : '';
}

function blockHint(review: Review, level: HintLevel, line: number, early: boolean): string {
  const { program } = review;
  const words = hasFeedOrSpeed(program, line) ? program.words(line) : [];
  const setsFeed = words.some(word => word.letter === 'F');
  const clamps = words.some(word => word.letter === 'G' && (word.value === 50 || word.value === 92));
  const setsSpeed = !clamps && words.some(word => word.letter === 'S');
  if (level === 'changes' && !setsFeed && !setsSpeed) return '';
  // Whether the speed is said at the tool rests on all that the tool does.
  if (early && level === 'changes' && setsSpeed) return '';
  const facts = lineFacts(program, line) ?? (setsFeed || setsSpeed ? nextCut(review, line) : undefined);
  if (!facts || Object.keys(facts.values).length === 0) return '';
  const { shown } = program;
  const { chip_load_mm, feed_per_rev_mm, surface_speed_m_min, spindle_rpm } = facts.values;
  const perRev = isFedPerRevolution(program.tool(facts.tools[0])?.kind?.value);
  const parts: string[] = [];
  if (setsFeed || level === 'every') {
    if (chip_load_mm && !perRev) parts.push(spanWords('chip_load_mm', chip_load_mm, shown));
    else if (feed_per_rev_mm && facts.feed_mode !== 95)
      parts.push(spanWords('feed_per_rev_mm', feed_per_rev_mm, shown));
  }
  if (setsSpeed || level === 'every') {
    if (facts.css === 1) parts.push(spanWords('spindle_rpm', spindle_rpm, shown));
    else if (level === 'every' || !saidAtTool(review, facts.tools[0]))
      parts.push(spanWords('surface_speed_m_min', surface_speed_m_min, shown));
  }
  // there is no room to say that the stock is assumed
  if (level === 'every' && facts.values.engagement_deg && !facts.assumed)
    parts.push(spanWords('engagement_deg', facts.values.engagement_deg, shown));
  return parts.filter(part => part !== '').join(' · ');
}

/** A tool that runs at one surface speed has it in the hint of its change. */
function saidAtTool(review: Review, number: number | undefined): boolean {
  const speed = review.tools.find(tool => tool.number === number)?.surface_speed_m_min;
  const words = (at: 0 | 1) =>
    speed && formatQuantity('surface_speed_m_min', speed[at], review.program.shown);
  return speed !== undefined && words(0) === words(1);
}

/** Facts of the first cut after a block that only sets speed or feed. */
function nextCut(review: Review, line: number): LineFacts | undefined {
  const end = Math.min(review.program.lineCount, line + HINT_REACH);
  for (let next = line + 1; next < end; next++) {
    const facts = lineFacts(review.program, next);
    if (facts?.values.feed_mm_min) return facts;
    if (review.program.words(next).some(word => word.letter === 'T')) return undefined;
  }
  return undefined;
}

function fit(text: string): string {
  return text.length <= HINT_BUDGET - 1 ? text : `${text.slice(0, HINT_BUDGET - 2)}…`;
}
