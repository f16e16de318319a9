import { chipLoadFromFeedPerRev } from '../cutting/feeds.ts';
import { isAbsent } from '../cutting/result.ts';
import { surfaceSpeed } from '../cutting/surface-speed.ts';
import { KIND, RUN } from '../rs274/steps.ts';
import type { ToolKnown } from '../setup/tools.ts';
import type { Program } from './program.ts';
import { spindleAt, stepMinutes } from './step-time.ts';
import { effectiveTeeth, type MachineKind, workingDiameter } from './working.ts';

/** What a run asks of the edge at one place. NaN is not known. */
export interface EdgeFacts {
  spindle_rpm: number;
  feed_mm_min: number;
  feed_per_rev_mm: number;
  chip_load_mm: number;
  surface_speed_m_min: number;
}

const nanIfAbsent = (value: number | { absent: string }): number =>
  isAbsent(value) ? Number.NaN : (value as number);

/** Feed, spindle, chip load and surface speed of a run for a tool while the edge is at X (mm, lathe radius). */
export function edgeFacts(
  run: Float64Array,
  tool: ToolKnown | undefined,
  machine: MachineKind | undefined,
  x_mm: number,
): EdgeFacts {
  const turning = run[RUN.direction] === 1 || run[RUN.direction] === -1;
  const spindle = turning ? spindleAt(run, x_mm) : Number.NaN;
  const spindle_rpm = spindle > 0 && spindle < Infinity ? spindle : Number.NaN;
  const lead = run[RUN.lead];
  const mode = run[RUN.feed_mode];
  const feed = run[RUN.feed];
  let feed_per_rev_mm = Number.NaN;
  let feed_mm_min = Number.NaN;
  if (lead > 0) {
    feed_per_rev_mm = lead;
    feed_mm_min = lead * spindle_rpm;
  } else if (mode === 95) {
    feed_per_rev_mm = feed;
    feed_mm_min = feed * spindle_rpm;
  } else if (mode !== 93) {
    feed_mm_min = feed;
    feed_per_rev_mm = feed / spindle_rpm;
  }
  const teeth = effectiveTeeth(tool);
  const diameter = workingDiameter(tool, machine, x_mm);
  return {
    spindle_rpm,
    feed_mm_min,
    feed_per_rev_mm,
    // What is not known is not asked for: why it is absent would be put into words that nobody reads here.
    chip_load_mm:
      teeth === undefined || Number.isNaN(feed_per_rev_mm)
        ? Number.NaN
        : nanIfAbsent(chipLoadFromFeedPerRev({ feed_per_rev_mm, teeth })),
    surface_speed_m_min:
      Number.isNaN(diameter) || Number.isNaN(spindle_rpm)
        ? Number.NaN
        : nanIfAbsent(surfaceSpeed({ diameter_mm: diameter, spindle_rpm })),
  };
}

export const LINE_QUANTITIES = [
  'spindle_rpm',
  'feed_mm_min',
  'feed_per_rev_mm',
  'chip_load_mm',
  'surface_speed_m_min',
  'length_mm',
  'time_s',
  'axial_depth_mm',
  'radial_width_mm',
  'engagement_deg',
  'chip_thickness_mm',
  'removal_cm3_min',
  'force_n',
  'torque_nm',
  'power_kw',
  'deflection_mm',
  'roughness_um',
  'holding_force_n',
  'holding_safety',
] as const;
export type LineQuantity = (typeof LINE_QUANTITIES)[number];

/** Least and most of a quantity along a line. */
export type Span = [least: number, most: number];

/** Everything known about one line of the program, folded from the steps that it makes. */
export interface LineFacts {
  /** 0-based. */
  line: number;
  /** Tools that ran this line, in order. */
  tools: number[];
  /** How often the line was executed. */
  runs: number;
  /** Kinds of steps it made, by STEP_KINDS index. */
  kinds: number[];
  values: Partial<Record<LineQuantity, Span>>;
  /** Feed mode (93, 94, 95) and constant surface speed (1) of its last cut. */
  feed_mode?: number;
  css?: number;
  /** What would be known if this were: "tool 3: teeth". */
  missing: string[];
  /** True when depth, width and loads rest on a stock that nobody stated. */
  assumed?: boolean;
}

const CUTTING = new Set<number>([KIND.feed, KIND.arc, KIND.thread, KIND.tap]);

/** Facts of a line; undefined when it makes no step. */
export function lineFacts(program: Program, line: number): LineFacts | undefined {
  const facts: LineFacts = { line, tools: [], runs: 0, kinds: [], values: {}, missing: [] };
  let length = 0;
  let time_s = 0;
  let rows = 0;
  let passes = 0;
  let lastStep = -2;
  const sums: { length: number; time_s: number }[] = [];
  const cursor = program.reading.stepsOfLine(line);
  while (cursor.next()) {
    if (cursor.kind === KIND.place) continue;
    rows++;
    if (cursor.index !== lastStep + 1) {
      passes++;
      if (passes > 1) sums.push({ length, time_s });
      length = 0;
      time_s = 0;
    }
    lastStep = cursor.index;
    const run = cursor.runValues;
    const number = run[RUN.tool];
    if (number >= 0 && !facts.tools.includes(number)) facts.tools.push(number);
    if (!facts.kinds.includes(cursor.kind)) facts.kinds.push(cursor.kind);
    length += cursor.length_mm;
    if (cursor.kind === KIND.rapid) time_s += program.rapidSeconds(cursor);
    else if (cursor.kind === KIND.dwell) time_s += cursor.seconds;
    if (!CUTTING.has(cursor.kind)) continue;
    facts.feed_mode = run[RUN.feed_mode];
    facts.css = run[RUN.css];
    const tool = program.tool(number);
    const inverse = cursor.seconds / 60;
    time_s += 60 * stepMinutes(run, cursor.kind, cursor.length_mm, cursor.x0, cursor.x, inverse);
    for (const x of run[RUN.css] === 1 || program.kind === 'lathe' ? [cursor.x0, cursor.x] : [cursor.x]) {
      const edge = edgeFacts(run, tool, program.kind, x);
      for (const name of Object.keys(edge) as (keyof EdgeFacts)[]) widen(facts, name, edge[name]);
    }
    program.cutFacts?.(cursor, tool, facts);
    addMissing(facts, number, tool, program);
  }
  if (rows === 0) return undefined;
  sums.push({ length, time_s });
  facts.runs = passes;
  for (const sum of sums) {
    widen(facts, 'length_mm', sum.length);
    widen(facts, 'time_s', sum.time_s);
  }
  return facts;
}

/** Makes a quantity's span hold a value; what is not known changes nothing. */
export function widen(facts: LineFacts, name: LineQuantity, value: number): void {
  if (!Number.isFinite(value)) return;
  const span = facts.values[name];
  if (!span) facts.values[name] = [value, value];
  else {
    if (value < span[0]) span[0] = value;
    if (value > span[1]) span[1] = value;
  }
}

/** Taps and thread mills take their feed from the pitch: no tooth count is missing. */
function followsThread(tool: ToolKnown | undefined): boolean {
  return tool?.kind?.value === 'tap' || tool?.kind?.value === 'probe';
}

function addMissing(facts: LineFacts, number: number, tool: ToolKnown | undefined, program: Program): void {
  const who = number >= 0 ? `tool ${number}` : 'the tool';
  const add = (what: string) => {
    if (!facts.missing.includes(what)) facts.missing.push(what);
  };
  if (effectiveTeeth(tool) === undefined && !followsThread(tool)) add(`${who}: teeth`);
  if (program.kind !== 'lathe' && !tool?.diameter_mm) add(`${who}: diameter`);
}
