import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import type { StockAnswer } from '../../../server/src/lsp/work/stock-messages.ts';
import { type Post, StockWork } from '../../../server/src/lsp/work/stock-work.ts';
import { StockWorker } from '../../../server/src/lsp/work/stock-worker.ts';
import { cutPlan, millCuts } from '../../../server/src/review/cuts/mill-cuts.ts';
import { type MillPlan, millPlan } from '../../../server/src/review/cuts/plan.ts';
import type { Program } from '../../../server/src/review/program.ts';

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
      for (let piece = waiting.shift(); piece && ran < most; piece = waiting.shift(), ran++) piece();
      return ran;
    },
  };
}

/** Figures of all steps as text, to be compared. */
function figures(of: Program, cuts: ReturnType<typeof millCuts>): string[] {
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
    assert.deepEqual(figures(own, millCuts(plan, run.sources)), figures(own, cutPlan(plan)));
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
    assert.ok(work.tiles > 0, 'nothing was cut again');
    assert.ok(work.tiles <= grid / 3, `${work.tiles} of ${grid} tiles were cut again`);
    assert.deepEqual(figures(after, millCuts(plan, run.sources)), figures(after, cutPlan(plan)));
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
});

/** How many tiles the block of a plan has. */
function cutTiles(plan: MillPlan): { grid: number } {
  const { block } = plan.frames[0];
  const side = (axis: 0 | 1) =>
    Math.ceil((block.high[axis] - block.low[axis]) / block.cell_mm / (block.tile_cells ?? 192));
  return { grid: side(0) * side(1) };
}
