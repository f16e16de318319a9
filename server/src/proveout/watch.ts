import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { KIND, RUN } from '../rs274/index.ts';
import type { FirstTouch } from './first-touch.ts';

/** What to look at on a line, in the trade's words. A length is given apart, to be shown in the reader's units. */
export interface WatchLine {
  /** 0-based. */
  line: number;
  why: string;
  /** Z that belongs to it, mm. */
  z_mm?: number;
}

const MOST_LINES = 8;
const MOST_STEPS = 500_000;
const LOCKED = (1 << KIND.thread) | (1 << KIND.tap);

/** The lines of a tool at which a hand belongs on feed hold, in the order of the program; `more` when some are left out. */
export function watchOf(
  review: Review,
  used: ToolReview,
  touch: FirstTouch | undefined,
): { lines: WatchLine[]; more: number } {
  const found: WatchLine[] = [];
  if (touch)
    found.push({
      line: touch.line,
      why: touch.by === 'stock' ? 'first contact with the work' : 'first feed move',
    });
  for (const finding of review.findings) {
    if (finding.severity !== 'error' && finding.severity !== 'warning') continue;
    if (finding.file === undefined && isOf(used, finding.tool, finding.line))
      found.push({ line: finding.line, why: `${finding.severity}: ${finding.message.replace(/\.$/, '')}` });
  }
  found.push(...partLines(used), ...lowest(review, used));
  const worst = [...found].sort((a, b) => rank(a) - rank(b));
  const lines = joined(worst.slice(0, MOST_LINES)).sort((a, b) => a.line - b.line);
  return { lines, more: Math.max(0, found.length - MOST_LINES) };
}

function isOf(used: ToolReview, tool: number | undefined, line: number): boolean {
  if (tool !== undefined) return tool === used.number;
  return used.uses.some(use => use.first_line <= line && line <= use.last_line);
}

function rank({ why }: WatchLine): number {
  return why.startsWith('error') ? 0 : why.startsWith('warning') ? 2 : 1;
}

/** First plunge, first compensated move, first thread. */
function partLines(used: ToolReview): WatchLine[] {
  const parts = used.uses.flatMap(use => use.parts);
  const lines: WatchLine[] = [];
  const drills = /drill|tap|reamer/.test(used.tool?.kind?.value ?? '');
  const plunge = parts.find(part => part.plunge_line >= 0 && !(part.kinds & LOCKED));
  if (plunge && !drills) lines.push({ line: plunge.plunge_line, why: 'first plunge' });
  const side = parts.find(part => [41, 42].includes(part.run[RUN.compensation]) && part.first_cut_line >= 0);
  if (side) {
    const offset = side.run[RUN.radius_offset];
    const number = Number.isFinite(offset) ? ` with D${offset}` : '';
    lines.push({ line: side.first_cut_line, why: `cutter compensation comes on${number}: check the offset` });
  }
  const thread = parts.find(part => part.kinds & LOCKED);
  if (thread)
    lines.push({
      line: thread.first_cut_line,
      why: 'override is locked from here: run it above the part first',
    });
  return lines;
}

/** Where the tool goes deepest: on a lathe, nearest to the chuck. */
function lowest({ program }: Review, used: ToolReview): WatchLine[] {
  let deepest = Number.NaN;
  let line = -1;
  let steps = 0;
  for (const use of used.uses) {
    for (const part of use.parts) {
      if (part.cut_steps === 0 || part.low(2) >= deepest || Number.isNaN(part.low(2))) continue;
      const cursor = program.reading.cursor(part.first_line, part.last_line + 1);
      while (cursor.next()) {
        if (++steps > MOST_STEPS) return [];
        if (cursor.run('tool') !== used.number || cursor.kind > KIND.tap || cursor.kind === KIND.rapid)
          continue;
        if (!(cursor.z >= deepest) && !Number.isNaN(cursor.z)) {
          deepest = cursor.z;
          line = cursor.line;
        }
      }
    }
  }
  if (line < 0) return [];
  return [{ line, why: program.kind === 'lathe' ? 'nearest to the chuck' : 'deepest', z_mm: deepest }];
}

function joined(lines: readonly WatchLine[]): WatchLine[] {
  const byLine = new Map<number, WatchLine>();
  for (const each of lines) {
    const there = byLine.get(each.line);
    if (!there) byLine.set(each.line, each);
    else if (!there.why.includes(each.why))
      byLine.set(each.line, { ...there, ...each, why: `${there.why}; ${each.why}` });
  }
  return [...byLine.values()];
}
