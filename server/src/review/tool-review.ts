import { isAbsent } from '../cutting/result.ts';
import type { Window } from '../materials/index.ts';
import { KIND } from '../rs274/steps.ts';
import type { OriginFrom } from '../setup/known.ts';
import type { ToolKnown } from '../setup/tools.ts';
import { type EdgeFacts, edgeFacts, type Span } from './facts.ts';
import type { Part } from './part.ts';
import type { Program } from './program.ts';
import type { ToolUse } from './tool-use.ts';

/** One tool over the whole program. */
export interface ToolReview {
  number: number;
  tool: ToolKnown | undefined;
  /** Best source of what is known; undefined when nothing is. */
  from: OriginFrom | undefined;
  uses: ToolUse[];
  first_line: number;
  last_line: number;
  /** Seconds; undefined when a part of it is not known. */
  time_s: number | undefined;
  cut_time_s: number | undefined;
  cut_length_mm: number;
  chip_load_mm: Span | undefined;
  surface_speed_m_min: Span | undefined;
  feed_per_rev_mm: Span | undefined;
  window: Window | undefined;
  /** At the feed and speed that most of the tool's cutting length runs with; undefined when it never cuts. */
  main: EdgeFacts | undefined;
}

const LOCKED = (1 << KIND.thread) | (1 << KIND.tap);

/** Sums the uses of each tool, in the order of first use. Tools that never cut are in it too. */
export function toolReviews(program: Program): ToolReview[] {
  const byNumber = new Map<number, ToolUse[]>();
  for (const use of program.uses) {
    if (use.number < 0 && !use.cuts) continue;
    const uses = byNumber.get(use.number);
    if (uses) uses.push(use);
    else byNumber.set(use.number, [use]);
  }
  return [...byNumber].map(([number, uses]) => toolReview(number, uses, program));
}

function toolReview(number: number, uses: ToolUse[], program: Program): ToolReview {
  const sum = (of: (use: ToolUse) => number) => uses.reduce((total, use) => total + of(use), 0);
  const tool = uses[0].tool;
  const cut_s = 60 * sum(use => use.cut_min);
  const untimed = sum(use => use.untimed) > 0;
  const rapid_s = program.rapidSecondsOf(sum(use => use.rapid_length_mm));
  const spans = spansOf(uses, tool, program);
  return {
    number,
    tool,
    from: sourceOf(tool),
    uses,
    first_line: uses[0].change_line,
    last_line: uses.reduce((last, use) => Math.max(last, use.last_line), 0),
    cut_time_s: untimed ? undefined : cut_s,
    time_s: untimed
      ? undefined
      : cut_s + 60 * sum(use => use.dwell_min) + (Number.isFinite(rapid_s) ? rapid_s : 0),
    cut_length_mm: sum(use => use.cut_length_mm),
    chip_load_mm: spans.chip_load_mm,
    surface_speed_m_min: spans.surface_speed_m_min,
    feed_per_rev_mm: spans.feed_per_rev_mm,
    window: program.window(number),
    main: mainFacts(uses, tool, program),
  };
}

function mainFacts(
  uses: readonly ToolUse[],
  tool: ToolKnown | undefined,
  program: Program,
): EdgeFacts | undefined {
  let longest: Part | undefined;
  for (const use of uses) {
    for (const part of use.parts) {
      if (part.cut_steps > 0 && (!longest || part.cut_length_mm > longest.cut_length_mm)) longest = part;
    }
  }
  return longest && edgeFacts(longest.run, tool, program.kind, longest.most_x_mm / 2);
}

function sourceOf(tool: ToolKnown | undefined): OriginFrom | undefined {
  return (tool?.diameter_mm ?? tool?.kind ?? tool?.teeth ?? tool?.nose_radius_mm)?.origin.from;
}

type Spans = Partial<Record<'chip_load_mm' | 'surface_speed_m_min' | 'feed_per_rev_mm', Span>>;

function spansOf(uses: readonly ToolUse[], tool: ToolKnown | undefined, program: Program): Spans {
  const spans: Spans = {};
  const { kind } = program;
  for (const { parts } of uses) {
    for (const part of parts) {
      if (part.cut_steps === 0) continue;
      addSpans(spans, part, edgeFacts(part.run, tool, kind, kind === 'lathe' ? part.least_x_mm / 2 : 0));
      if (kind === 'lathe') addSpans(spans, part, edgeFacts(part.run, tool, kind, part.most_x_mm / 2));
    }
  }
  return spans;
}

function addSpans(spans: Spans, part: Part, facts: EdgeFacts): void {
  if ((part.kinds & LOCKED) === 0) widen(spans, 'chip_load_mm', facts.chip_load_mm);
  widen(spans, 'surface_speed_m_min', facts.surface_speed_m_min);
  widen(spans, 'feed_per_rev_mm', facts.feed_per_rev_mm);
}

function widen(spans: Spans, name: keyof Spans, value: number): void {
  if (!Number.isFinite(value)) return;
  const span = spans[name];
  if (!span) spans[name] = [value, value];
  else if (value < span[0]) span[0] = value;
  else if (value > span[1]) span[1] = value;
}

/** Low and high end of a window's range; undefined when it is absent. */
export function rangeOf(
  window: Window | undefined,
  quantity: 'chip_load_mm' | 'surface_speed_m_min' | 'feed_per_rev_mm',
): Span | undefined {
  const range = window?.[quantity];
  return range && !isAbsent(range) ? [range.low, range.high] : undefined;
}
