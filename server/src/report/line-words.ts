import { formatQuantity } from '../cutting/format.ts';
import { FORCE_SCATTER } from '../cutting/kienzle.ts';
import { QUANTITIES } from '../cutting/quantities.ts';
import { isAbsent } from '../cutting/result.ts';
import { unfold } from '../cutting/unfold.ts';
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

/** The figures of a line: the feed as it is judged, loads with their scatter. */
export function factRows(review: Review, facts: LineFacts): FactRow[] {
  const { program } = review;
  const number = facts.tools[0];
  const perRev = isFedPerRevolution(program.tool(number)?.kind?.value);
  const rows: FactRow[] = [];
  for (const name of SHOWN) {
    const span = facts.values[name];
    if (!span || name === 'feed_mm_min' || (name === 'chip_load_mm' && perRev)) continue;
    if (name === 'feed_per_rev_mm' && facts.values.chip_load_mm && !perRev) continue;
    rows.push({
      title: QUANTITIES[name].title,
      value: valueWords(review, name, span),
      window: standing(review, number, name, span),
    });
  }
  return rows;
}

const EMPIRICAL: ReadonlySet<LineQuantity> = new Set(['force_n', 'torque_nm', 'power_kw', 'deflection_mm']);

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
  return `${most > range.high ? 'over' : least < range.low ? 'under' : 'inside'} ${words}`;
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

/** The sums behind a line's figures, each with its values in it. */
export function lineSums(review: Review, facts: LineFacts): string[] {
  const { program } = review;
  const { shown } = program;
  const tool = program.tool(facts.tools[0]);
  const state = program.reading.stateAfter(facts.line).v;
  const run = {
    feed_mode: state[S.feed_mode],
    feed: state[S.feed],
    css: state[S.css],
    spindle: state[S.spindle],
    clamp_rpm: state[S.clamp_rpm],
  };
  const most = (name: LineQuantity): number | undefined => facts.values[name]?.[1];
  const sums: string[] = [];
  const teeth = effectiveTeeth(tool);
  const feed_mm_min = most('feed_mm_min');
  const spindle_rpm = most('spindle_rpm');
  if (teeth !== undefined && teeth > 1) {
    if (run.feed_mode === 95)
      sums.push(unfold('chip_load_from_feed_per_rev', { feed_per_rev_mm: run.feed, teeth }, shown));
    else sums.push(unfold('chip_load', { feed_mm_min, spindle_rpm, teeth }, shown));
  } else if (run.feed_mode === 94) sums.push(unfold('feed_per_rev', { feed_mm_min, spindle_rpm }, shown));
  const diameter_mm = lineDiameter(review, facts);
  if (run.css === 1)
    sums.push(
      unfold(
        'spindle_under_css',
        {
          surface_speed_m_min: run.spindle,
          diameter_mm,
          max_rpm: Number.isFinite(run.clamp_rpm) ? run.clamp_rpm : undefined,
        },
        shown,
      ),
    );
  else if (Number.isFinite(diameter_mm))
    sums.push(unfold('surface_speed', { diameter_mm, spindle_rpm }, shown));
  return [...sums, ...loadSums(review, facts)];
}

/** The sums behind depth, thickness, removal and power, where the stock is known. */
function loadSums(review: Review, facts: LineFacts): string[] {
  const { program } = review;
  const { shown } = program;
  const most = (name: LineQuantity): number | undefined => facts.values[name]?.[1];
  const radial_width_mm = most('radial_width_mm');
  const axial_depth_mm = most('axial_depth_mm');
  if (program.kind === 'lathe' || radial_width_mm === undefined || axial_depth_mm === undefined) return [];
  const tool = program.tool(facts.tools[0]);
  const diameter_mm = tool?.diameter_mm?.value;
  const sums = [
    unfold('chip_thickness', { chip_load_mm: most('chip_load_mm'), radial_width_mm, diameter_mm }, shown),
    unfold('removal', { radial_width_mm, axial_depth_mm, feed_mm_min: most('feed_mm_min') }, shown),
  ];
  const torque_nm = most('torque_nm');
  if (torque_nm !== undefined)
    sums.push(unfold('power_from_torque', { torque_nm, spindle_rpm: most('spindle_rpm') }, shown));
  return sums;
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
