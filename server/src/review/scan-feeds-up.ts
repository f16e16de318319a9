import { KIND, STEP_FLAG, type StepTable } from '../rs274/steps.ts';

const { feed: FEED, arc: ARC, rapid: RAPID } = KIND;

/**
 * Whether a step is a straight feed up right after a rapid down, with a cut at its height after it. Looks at the two steps
 * before and the one after, which must stand in the table.
 */
export function feedsUpAt(table: StepTable, i: number): boolean {
  const { kind, flags, x, y, z, count } = table;
  const next = i + 1;
  if (i < 2 || next >= count || kind[i] !== FEED || (flags[i] & STEP_FLAG.cycle) !== 0) return false;
  if (!(z[i] > z[i - 1]) || x[i] !== x[i - 1] || y[i] !== y[i - 1]) return false;
  if (kind[i - 1] !== RAPID || !(z[i - 1] < z[i - 2])) return false;
  return z[next] === z[i] && (kind[next] === FEED || kind[next] === ARC);
}
