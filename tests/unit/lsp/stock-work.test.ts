import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import type { StockAnswer } from '../../../server/src/lsp/work/stock-messages.ts';
import { cutsOf, type Post, StockWork } from '../../../server/src/lsp/work/stock-work.ts';
import { StockWorker } from '../../../server/src/lsp/work/stock-worker.ts';
import { turnPlan } from '../../../server/src/review/cuts/lathe-cuts.ts';
import { type LathePlan, lathePlan } from '../../../server/src/review/cuts/lathe-plan.ts';
import { cutPlan } from '../../../server/src/review/cuts/mill-cuts.ts';
import { type MillPlan, millPlan } from '../../../server/src/review/cuts/plan.ts';
import type { Cuts, Program } from '../../../server/src/review/program.ts';

const SHEET =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "C45", "stock": { "shape": "block", "size": [400, 300, 20], "zero": [0, 0, 20] } }, "tools": { "1": { "kind": "end-mill", "diameter": 10, "teeth": 4, "substrate": "carbide" } } }';

/** Slots side by side over a wide block; `changed` is the row whose end is shorter. */
function program(changed = -1): Program {
  const lines = ['G21 G17 G90 G94 G54', 'T1 M6', 'S4000 M3', 'G0 X10 Y10 Z5', 'F800'];
  for (let row = 0; row < 12; row++) {
    const y = 15 + row * 24;
    lines.push(`G0 X10 Y${y}`, 'G1 Z-3', `X${row === changed ? 120 : 390}`, 'G0 Z5');
  }
  const { review } = openJob({
    bytes: new TextEncoder().encode(lines.join('\n')),
    name: 'slots.nc',
    files: { sheet: { path: 'slots.setup.json', text: SHEET } },
  });
  return review.program;
}

const LATHE_SHEET =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "workpiece": { "material": "C45", "stock": { "shape": "bar", "diameter": 60, "length": 120, "face": 1 } }, "tools": { "1": { "kind": "turn", "nose_radius": 0.4, "edge_angle_deg": 95, "substrate": "carbide" } } }';

/** Passes along a bar, 0.25 deep each; `changed` is the pass that goes less far. */
function turning(changed = -1): Program {
  const lines = ['G21 G18 G40 G99', 'T0101', 'G97 S800 M3', 'G0 X62. Z2.'];
  for (let pass = 0; pass < 90; pass++)
    lines.push(`G0 X${59.5 - pass / 2}`, `G1 Z-${pass === changed ? 20 : 80}. F0.2`, 'G0 X62.', 'Z2.');
  const { review } = openJob({
    bytes: new TextEncoder().encode(lines.join('\n')),
    name: 'bar.nc',
    files: { sheet: { path: 'bar.setup.json', text: LATHE_SHEET } },
  });
  return review.program;
}

function turningPlan(of: Program): LathePlan {
  const plan = lathePlan(of);
  assert.ok(!('why' in plan));
  return plan;
}

function planOf(of: Program): MillPlan {
  const plan = millPlan(of);
  assert.ok(!('why' in plan));
  return plan;
}

/** The worker's side without a thread: pieces run when `drain` is called. The clock jumps, so that each piece is one step. */
function bench(): { work: StockWork; drain: (most?: number) => number; pieces: StockAnswer[] } {
  const waiting: (() => void)[] = [];
  const pieces: StockAnswer[] = [];
  let listen: (answer: StockAnswer) => void = () => undefined;
  let clock = 0;
  const worker = new StockWorker(
    answer => {
      pieces.push(answer);
      listen(structuredClone(answer));
    },
    () => {
      clock += 15;
      return clock;
    },
    piece => waiting.push(piece),
  );
  const post: Post = {
    post: order => worker.take(structuredClone(order)),
    hear: heard => {
      listen = heard;
    },
  };
  return {
    work: new StockWork(post),
    pieces,
    drain(most = Number.POSITIVE_INFINITY) {
      let ran = 0;
      for (; waiting.length > 0 && ran < most; ran++) waiting.shift()?.();
      return ran;
    },
  };
}

/** Figures of all steps as text, to be compared. */
function figures(of: Program, cuts: Cuts): string[] {
  const rows: string[] = [];
  const cursor = of.reading.cursor();
  while (cursor.next()) {
    const found = cuts.figures(cursor);
    if (found)
      rows.push(
        Object.values(found)
          .map(value => Math.fround(value))
          .join(' '),
      );
  }
  return rows;
}

describe('stock in a worker', () => {
  it('gives the figures of a cut at once, piece by piece', () => {
    const own = program();
    const plan = planOf(own);
    const { work, drain, pieces } = bench();
    let finished = false;
    const run = work.cut('a', plan, end => {
      finished = end;
    });
    const many = drain();
    assert.ok(finished);
    assert.ok(many > 10, `${many} pieces`);
    assert.ok(pieces.length > 10);
    assert.deepEqual(figures(own, cutsOf(own, plan, run)), figures(own, cutPlan(plan)));
  });

  it('after an edit cuts only the tiles of changed moves again, and equals a fresh cut', () => {
    const before = program();
    const { work, drain } = bench();
    work.cut('a', planOf(before), () => undefined);
    drain();
    const after = program(5);
    const plan = planOf(after);
    const run = work.cut('a', plan, () => undefined);
    drain();
    const { grid } = cutTiles(plan);
    assert.ok(run.finished);
    assert.ok(work.cut_again > 0, 'nothing was cut again');
    assert.ok(work.cut_again <= grid / 3, `${work.cut_again} of ${grid} tiles were cut again`);
    assert.deepEqual(figures(after, cutsOf(after, plan, run)), figures(after, cutPlan(plan)));
  });

  it('gives up a cut that is no longer wanted', () => {
    const { work, drain } = bench();
    let told = 0;
    work.cut('a', planOf(program()), () => {
      told++;
    });
    drain(2);
    const sofar = told;
    work.cancel('a');
    drain();
    assert.equal(told, sofar);
  });

  it('a newer edit takes effect at once while an earlier one is worked off', () => {
    const { work, drain, pieces } = bench();
    work.cut('a', planOf(program()), () => undefined);
    drain();
    const older = work.cut('a', planOf(program(2)), () => undefined);
    const one = drain(4);
    assert.equal(one, 4, 'the edit is divided');
    assert.equal(older.finished, false);
    const after = program(5);
    const plan = planOf(after);
    const from = pieces.length;
    const run = work.cut('a', plan, () => undefined);
    drain();
    const { grid } = cutTiles(plan);
    const orders = new Set(pieces.slice(from).map(piece => 'order' in piece && piece.order));
    assert.equal(orders.size, 1, 'the older order told more');
    assert.equal(older.finished, false);
    assert.ok(run.finished);
    assert.ok(work.cut_again > 0 && work.cut_again < grid, `${work.cut_again} of ${grid} tiles`);
    assert.deepEqual(figures(after, cutsOf(after, plan, run)), figures(after, cutPlan(plan)));
  });

  it('an edit before the first cutting is done goes on from there', () => {
    const whole = bench();
    whole.work.cut('a', planOf(program()), () => undefined);
    const pieces_of_all = whole.drain();
    const { work, drain } = bench();
    work.cut('a', planOf(program()), () => undefined);
    const before = drain(Math.floor(0.8 * pieces_of_all));
    const after = program(11);
    const plan = planOf(after);
    const run = work.cut('a', plan, () => undefined);
    const rest = drain();
    assert.ok(run.finished);
    assert.ok(rest < before, `${rest} pieces after the edit, ${before} before it`);
    assert.deepEqual(figures(after, cutsOf(after, plan, run)), figures(after, cutPlan(plan)));
  });

  it('an edit can be given up, and the next one goes on from there', () => {
    const { work, drain, pieces } = bench();
    work.cut('a', planOf(program()), () => undefined);
    drain();
    work.cut('a', planOf(program(3)), () => undefined);
    drain(3);
    work.cancel('a');
    const from = pieces.length;
    drain();
    assert.equal(pieces.length, from, 'told after it was given up');
    const after = program(7);
    const plan = planOf(after);
    const run = work.cut('a', plan, () => undefined);
    drain();
    assert.deepEqual(figures(after, cutsOf(after, plan, run)), figures(after, cutPlan(plan)));
  });

  it('a bar: gives the figures of a cut at once, piece by piece', () => {
    const own = turning();
    const plan = turningPlan(own);
    const { work, drain, pieces } = bench();
    const run = work.cut('a', plan, () => undefined);
    drain(50);
    assert.ok(!run.finished);
    const part = figures(own, cutsOf(own, plan, run));
    assert.ok(part.length > 10 && part.length <= 51, `${part.length} figures after 51 pieces`);
    drain();
    assert.ok(run.finished && pieces.length > 100);
    const whole = figures(own, turnPlan(own, plan));
    assert.equal(whole.length, plan.moves.count);
    assert.deepEqual(figures(own, cutsOf(own, plan, run)), whole);
    assert.deepEqual(part, whole.slice(0, part.length));
  });

  it('a bar: edits while others are worked off, and before the first cutting is done', () => {
    const { work, drain, pieces } = bench();
    work.cut('a', turningPlan(turning()), () => undefined);
    drain(200);
    work.cut('a', turningPlan(turning(80)), () => undefined);
    drain(20);
    const after = turning(60);
    const plan = turningPlan(after);
    const from = pieces.length;
    const run = work.cut('a', plan, () => undefined);
    const pieces_of_it = drain();
    assert.ok(run.finished);
    // the passes before the edit are not cut again
    assert.ok(pieces_of_it < plan.moves.count, `${pieces_of_it} pieces for ${plan.moves.count} moves`);
    assert.equal(new Set(pieces.slice(from).map(piece => 'order' in piece && piece.order)).size, 1);
    assert.deepEqual(figures(after, cutsOf(after, plan, run)), figures(after, turnPlan(after, plan)));
  });

  it('a bar: gives up a cut that is no longer wanted', () => {
    const { work, drain, pieces } = bench();
    work.cut('a', turningPlan(turning()), () => undefined);
    drain(5);
    work.cancel('a');
    const told = pieces.length;
    drain();
    assert.equal(pieces.length, told);
  });

  it('sends the rows of an edit near the end of a long program in several pieces', () => {
    const { work, drain, pieces } = bench();
    const long = (feed: number): Program => {
      const lines = ['G21 G17 G90 G94 G54', 'T1 M6', 'S4000 M3', 'G0 X10 Y10 Z5', 'F800'];
      for (let k = 0; k < 10_000; k++) lines.push(`X${10 + (k % 2)}`);
      lines.push(`G1 Z-${feed}`);
      const files = { sheet: { path: 'slots.setup.json', text: SHEET } };
      return openJob({ bytes: new TextEncoder().encode(lines.join('\n')), name: 'a.nc', files }).review
        .program;
    };
    work.cut('a', planOf(long(1)), () => undefined);
    drain();
    const from = pieces.length;
    const after = long(2);
    const plan = planOf(after);
    const run = work.cut('a', plan, () => undefined);
    drain();
    const sizes = pieces
      .slice(from)
      .flatMap(piece => (piece.tell === 'piece' ? [piece.to - piece.from] : []));
    assert.ok(Math.max(...sizes) <= 8192, `${Math.max(...sizes)} rows at once`);
    assert.deepEqual(figures(after, cutsOf(after, plan, run)), figures(after, cutPlan(plan)));
  });
});

/** How many tiles the block of a plan has. */
function cutTiles(plan: MillPlan): { grid: number } {
  const { block } = plan.frames[0];
  const side = (axis: 0 | 1) =>
    Math.ceil((block.high[axis] - block.low[axis]) / block.cell_mm / (block.tile_cells ?? 192));
  return { grid: side(0) * side(1) };
}
