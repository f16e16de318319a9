import { formatQuantity } from '../cutting/format.ts';
import { FORCE_SCATTER } from '../cutting/kienzle.ts';
import { QUANTITIES } from '../cutting/quantities.ts';
import type { Absent, Estimate } from '../cutting/result.ts';
import { isAbsent } from '../cutting/result.ts';
import { UNFOLDINGS, type UnfoldingInputs, type UnfoldingName, unfold } from '../cutting/unfold.ts';
import type { WindowRange } from '../materials/index.ts';
import { LINE_QUANTITIES, type LineFacts, type LineQuantity, type Span } from '../review/facts.ts';
import type { Review } from '../review/review.ts';
import { effectiveTeeth, isFedPerRevolution, workingDiameter } from '../review/working.ts';
import { S } from '../rs274/index.ts';
import { RUN } from '../rs274/steps.ts';
import { spanWords } from './tool-words.ts';

const SHOWN: readonly LineQuantity[] = LINE_QUANTITIES.filter(
  name => name !== 'spindle_rpm' && name !== 'length_mm',
);

/** One figure of a line as a person reads it. */
export interface FactRow {
  title: string;
  value: string;
  /** Where it stands in its window; '' without one. */
  window: string;
}

/** Of a tool that is fed by the revolution these say nothing: it cuts with its whole width. */
const OF_MILLING: ReadonlySet<LineQuantity> = new Set([
  'chip_load_mm',
  'radial_width_mm',
  'engagement_deg',
  'chip_thickness_mm',
]);

/** The figures of a line: the feed as it is judged, loads with their scatter. */
export function factRows(review: Review, facts: LineFacts): FactRow[] {
  const { program } = review;
  const number = facts.tools[0];
  const perRev = isFedPerRevolution(program.tool(number)?.kind?.value);
  const turned = program.kind === 'lathe';
  const rows: FactRow[] = [];
  for (const name of SHOWN) {
    const span = facts.values[name];
    if (!span || name === 'feed_mm_min' || (perRev && !turned && OF_MILLING.has(name))) continue;
    if (perRev && name === 'chip_load_mm') continue;
    if (name === 'feed_per_rev_mm' && facts.values.chip_load_mm && !perRev) continue;
    rows.push({
      title: turned && name === 'axial_depth_mm' ? 'depth of cut' : QUANTITIES[name].title,
      value: valueWords(review, name, span),
      window: standing(review, number, name, span),
    });
  }
  return rows;
}

const EMPIRICAL: ReadonlySet<LineQuantity> = new Set([
  'force_n',
  'torque_nm',
  'power_kw',
  'deflection_mm',
  'holding_force_n',
]);

/** Empirical figures are shown with their scatter: about 1.1 to 1.6 kW. */
function valueWords(review: Review, name: LineQuantity, span: Span): string {
  const { shown } = review.program;
  if (!EMPIRICAL.has(name)) return spanWords(name, span, shown);
  const [least, most] = span;
  const estimate = {
    value: most,
    low: least * (1 - FORCE_SCATTER),
    high: most * (1 + FORCE_SCATTER),
    basis: '',
  };
  return formatQuantity(name, estimate, shown);
}

/** The window of a quantity at a tool; undefined where there is none. */
function windowRange(review: Review, tool: number | undefined, name: LineQuantity): WindowRange | undefined {
  const window = tool === undefined ? undefined : review.program.window(tool);
  if (!window || (name !== 'chip_load_mm' && name !== 'feed_per_rev_mm' && name !== 'surface_speed_m_min'))
    return undefined;
  const range = window[name];
  return isAbsent(range) ? undefined : range;
}

/** Where a number stands in its window. */
export function standing(
  review: Review,
  tool: number | undefined,
  name: LineQuantity,
  [least, most]: Span,
): string {
  const range = windowRange(review, tool, name);
  if (!range) return '';
  const words = spanWords(name, [range.low, range.high], review.program.shown);
  return `${sideWords([least, most], range)} ${words}`;
}

/** On which side of a window a span lies; `partly` where only one of its ends is outside. */
function sideWords([least, most]: Span, { low, high }: { low: number; high: number }): string {
  if (least > high) return 'over';
  if (most < low) return 'under';
  if (most > high) return least < low ? 'under and over' : 'partly over';
  return least < low ? 'partly under' : 'inside';
}

/** Where the windows of a tool come from and what narrowed them, each once; '' without one. */
export function windowSources(review: Review, tool: number | undefined): string {
  const sources = new Set<string>();
  for (const name of ['chip_load_mm', 'surface_speed_m_min'] as const) {
    const range = windowRange(review, tool, name);
    if (!range) continue;
    const steps = range.steps.map(step => `${step.why} × ${Number(step.factor.toFixed(2))}`).join('; ');
    sources.add(`${range.source}${steps ? ` (${steps})` : ''}`);
  }
  return sources.size === 0 ? '' : `Window: ${[...sources].join('; ')}.`;
}

/** The sums behind a line's figures, each with its values in it; none that would end on another number than the one shown. */
export function lineSums(review: Review, facts: LineFacts): string[] {
  const { program } = review;
  const tool = program.tool(facts.tools[0]);
  const state = program.reading.stateAfter(facts.line).v;
  const most = (name: LineQuantity): number | undefined => facts.values[name]?.[1];
  const add = summer(review, most);
  const teeth = effectiveTeeth(tool);
  const perMinute = state[S.feed_mode] !== 95;
  const feed_mm_min = most('feed_mm_min');
  const spindle_rpm = most('spindle_rpm');
  if (teeth === undefined || teeth === 1 || isFedPerRevolution(tool?.kind?.value)) {
    if (perMinute) add('feed_per_rev_mm', 'feed_per_rev', { feed_mm_min, spindle_rpm });
  } else if (perMinute) add('chip_load_mm', 'chip_load', { feed_mm_min, spindle_rpm, teeth });
  else add('chip_load_mm', 'chip_load_from_feed_per_rev', { feed_per_rev_mm: state[S.feed], teeth });
  const diameter_mm = lineDiameter(review, facts);
  if (state[S.css] === 1)
    add('spindle_rpm', 'spindle_under_css', {
      surface_speed_m_min: state[S.spindle],
      diameter_mm,
      max_rpm: Number.isFinite(state[S.clamp_rpm]) ? state[S.clamp_rpm] : undefined,
    });
  else if (Number.isFinite(diameter_mm))
    add('surface_speed_m_min', 'surface_speed', { diameter_mm, spindle_rpm });
  if (program.kind === 'lathe') {
    add('removal_cm3_min', 'turning_removal', {
      surface_speed_m_min: most('surface_speed_m_min'),
      axial_depth_mm: most('axial_depth_mm'),
      feed_per_rev_mm: most('feed_per_rev_mm'),
    });
  } else {
    const radial_width_mm = most('radial_width_mm');
    add('chip_thickness_mm', 'chip_thickness', {
      chip_load_mm: most('chip_load_mm'),
      radial_width_mm,
      diameter_mm: tool?.diameter_mm?.value,
    });
    add('removal_cm3_min', 'removal', {
      radial_width_mm,
      axial_depth_mm: most('axial_depth_mm'),
      feed_mm_min,
    });
  }
  add('power_kw', 'power_from_torque', { torque_nm: most('torque_nm'), spindle_rpm });
  return add.sums;
}

/** A sum may end this share beside the number shown: more would be another sum. */
const SAME_SHARE = 0.01;

type Summer = {
  <N extends UnfoldingName>(quantity: LineQuantity, name: N, given: UnfoldingInputs<N>): void;
  sums: string[];
};

/** Keeps the sums that end on the number shown: a line of several moves has figures that no one sum gives. */
function summer(review: Review, most: (name: LineQuantity) => number | undefined): Summer {
  const add = <N extends UnfoldingName>(quantity: LineQuantity, name: N, given: UnfoldingInputs<N>) => {
    const result = UNFOLDINGS[name].result as (given: UnfoldingInputs<N>) => number | Estimate | Absent;
    const value = result(given);
    const shown = most(quantity);
    if (typeof value !== 'number' || shown === undefined) return;
    if (Math.abs(value - shown) > SAME_SHARE * Math.abs(shown)) return;
    add.sums.push(unfold(name, given, review.program.shown));
  };
  add.sums = [] as string[];
  return add;
}

function lineDiameter(review: Review, facts: LineFacts): number {
  const cursor = review.program.reading.stepsOfLine(facts.line);
  let diameter = Number.NaN;
  while (cursor.next())
    diameter = workingDiameter(
      review.program.tool(cursor.runValues[RUN.tool]),
      review.program.kind,
      cursor.x,
    );
  return diameter;
}
