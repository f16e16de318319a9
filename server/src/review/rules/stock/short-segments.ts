import { StepCursor } from '../../../rs274/index.ts';
import { Slot } from '../../../rs274/slot.ts';
import { KIND, RUN } from '../../../rs274/steps.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { shown, toolName } from '../words.ts';
import { percent } from './passes-of-load.ts';
import { MILL_HEAD } from './sample-sheets.ts';

/** Segments in a row from which on it is a path, and share of the feed under which it is worth a word. */
const LEAST_COUNT = 20;
const LEAST_SHARE = 0.8;
/** Steps that are looked at. */
const MOST_STEPS = 1_000_000;

interface Slow {
  line: number;
  count: number;
  length_mm: number;
  feed_mm_min: number;
}

const found = new Slot<Program, Map<ToolUse, Slow>>();

/** The longest row of segments, by tool, that the control cannot take in at the programmed feed. */
function slowRows(program: Program): Map<ToolUse, Slow> {
  const held = found.get(program);
  if (held) return held;
  const rows = new Map<ToolUse, Slow>();
  found.set(program, rows);
  const rate = program.machine?.block_rate_per_s?.value;
  if (rate === undefined) return rows;
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  let row: Slow | undefined;
  let tool = Number.NaN;
  const close = () => {
    if (!row || row.count < LEAST_COUNT) return;
    const use = program.uses.find(
      each =>
        each.number === tool && each.first_line <= (row?.line ?? -1) && each.last_line >= (row?.line ?? -1),
    );
    if (use && row.count > (rows.get(use)?.count ?? 0)) rows.set(use, row);
  };
  for (let seen = 0; seen < MOST_STEPS && cursor.next(); seen++) {
    const run = cursor.runValues;
    const feed = run[RUN.feed];
    const length = cursor.length_mm;
    const straight = (cursor.kind === KIND.feed || cursor.kind === KIND.arc) && run[RUN.feed_mode] === 94;
    if (straight && length > 0 && length * rate * 60 < LEAST_SHARE * feed) {
      if (!row || row.feed_mm_min !== feed || run[RUN.tool] !== tool) {
        close();
        row = { line: cursor.line, count: 0, length_mm: 0, feed_mm_min: feed };
        tool = run[RUN.tool];
      }
      row.count++;
      row.length_mm += length;
    } else {
      close();
      row = undefined;
    }
  }
  close();
  return rows;
}

const sheet = (rate?: number) =>
  JSON.stringify({
    units: 'mm',
    machine: { kind: 'mill', dialect: 'iso6983', ...(rate ? { block_rate_per_s: rate } : {}) },
  });

/** Thirty segments of `step` mm. */
const segments = (step: number) =>
  Array.from({ length: 30 }, (_, k) => `X${(step * (k + 1)).toFixed(3)}\n`).join('');

/** Segments too short for the control to run at the programmed feed. */
export const shortSegments: Rule = {
  code: 'short-segments',
  title: 'Segments too short for the feed',
  family: 'cutting',
  severity: 'information',
  means:
    'The control takes in so many blocks a second. With segments this short it cannot reach the programmed feed: the cut takes longer and each tooth takes less than planned.',
  cure: 'Post with a wider tolerance or arcs, or lower F and S to what the control follows.',
  fine_when: 'The control joins segments before it runs them.',
  source: 'feed = segment length x blocks a second',
  needs: ['machine.block_rate'],
  tool(use, program, report) {
    const row = slowRows(program).get(use);
    const rate = program.machine?.block_rate_per_s?.value;
    if (!row || !rate) return;
    const reached = (row.length_mm / row.count) * rate * 60;
    report({
      at: program.blockPlace(row.line),
      message: `Slower than programmed: ${row.count} segments of about ${shown(program, 'length_mm', row.length_mm / row.count)} let ${toolName(use)} reach ${shown(program, 'feed_mm_min', reached)} of ${shown(program, 'feed_mm_min', row.feed_mm_min)} (${percent(reached / row.feed_mm_min)}), and each tooth takes that much less.`,
    });
  },
  flagged: [
    {
      name: 'segments of 0.05 mm at 500 blocks a second',
      program: `${MILL_HEAD}G0 X0 Y0 Z1.\nG1 F3000.\n${segments(0.05).replace('\n', '\n^^^^^^\n')}`,
      sheet: sheet(500),
    },
  ],
  silent: [
    {
      name: 'segments of a millimetre',
      program: `${MILL_HEAD}G0 X0 Y0 Z1.\nG1 F3000.\n${segments(1)}`,
      sheet: sheet(500),
    },
    {
      name: 'the block rate is not known',
      program: `${MILL_HEAD}G0 X0 Y0 Z1.\nG1 F3000.\n${segments(0.05)}`,
      sheet: sheet(),
    },
  ],
};
