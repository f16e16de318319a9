import { ARC_WIDTH, KIND, RUN, RUN_WIDTH, type StepTable } from '../rs274/steps.ts';

/** Cosine over which two directions run on smoothly, and under which they make a corner. */
const SMOOTH = 0.999;
const CORNER = 0.5;
/** Ways shorter than this have no direction, mm. */
const NO_WAY = 1e-6;

/**
 * Whether an arc makes a corner with the moves before and after it that would run on smoothly if it turned the other way:
 * about the same centre, or about the centre on the other side of its chord (as a radius word gives). Looks at the two
 * steps before and the one after, which must stand in the table.
 */
export function turnsBack(table: StepTable, i: number): boolean {
  const { kind, count } = table;
  if (i < 2 || i + 1 >= count || kind[i - 1] !== KIND.feed || kind[i + 1] !== KIND.feed) return false;
  const plane = table.runs[table.run[i] * RUN_WIDTH + RUN.plane];
  const first = plane === 17 ? table.x : plane === 18 ? table.z : table.y;
  const second = plane === 17 ? table.y : plane === 18 ? table.x : table.z;
  const row = table.aux[i] * ARC_WIDTH;
  const centre_a = table.arcs[row];
  const centre_b = table.arcs[row + 1];
  const way = Math.sign(table.arcs[row + 2]);
  const start_a = first[i - 1];
  const start_b = second[i - 1];
  const end_a = first[i];
  const end_b = second[i];
  const before_a = start_a - first[i - 2];
  const before_b = start_b - second[i - 2];
  const before = Math.sqrt(before_a * before_a + before_b * before_b);
  const after_a = first[i + 1] - end_a;
  const after_b = second[i + 1] - end_b;
  const after = Math.sqrt(after_a * after_a + after_b * after_b);
  if (!(before > NO_WAY && after > NO_WAY)) return false;
  // Cosines between the arc's direction and the moves before and after it.
  const leaves_a = -(start_b - centre_b) * way;
  const leaves_b = (start_a - centre_a) * way;
  const leaves = Math.sqrt(leaves_a * leaves_a + leaves_b * leaves_b);
  const arrives_a = -(end_b - centre_b) * way;
  const arrives_b = (end_a - centre_a) * way;
  const arrives = Math.sqrt(arrives_a * arrives_a + arrives_b * arrives_b);
  if (!(leaves > NO_WAY && arrives > NO_WAY)) return false;
  const into = (before_a * leaves_a + before_b * leaves_b) / (before * leaves);
  const out = (after_a * arrives_a + after_b * arrives_b) / (after * arrives);
  if (into > SMOOTH || out > SMOOTH || (into > CORNER && out > CORNER)) return false;
  // The other way round about the same centre both are the opposite.
  if (-into > SMOOTH && -out > SMOOTH) return true;
  const mirror_a = start_a + end_a - centre_a;
  const mirror_b = start_b + end_b - centre_b;
  const other_a = (start_b - mirror_b) * way;
  const other_b = -(start_a - mirror_a) * way;
  const other = Math.sqrt(other_a * other_a + other_b * other_b);
  const far_a = (end_b - mirror_b) * way;
  const far_b = -(end_a - mirror_a) * way;
  const far = Math.sqrt(far_a * far_a + far_b * far_b);
  if (!(other > NO_WAY && far > NO_WAY)) return false;
  return (
    (before_a * other_a + before_b * other_b) / (before * other) > SMOOTH &&
    (after_a * far_a + after_b * far_b) / (after * far) > SMOOTH
  );
}
