/** What stands round the stock: keep-out boxes, jobs in pieces, states handed on. */
import assert from 'node:assert/strict';
import { type Cutter, cutter } from '../../../server/src/stock/cutter.ts';
import {
  blockOf,
  endState,
  packState,
  placed,
  turned,
  unpackState,
} from '../../../server/src/stock/end-state.ts';
import { defaultCell, layGrid } from '../../../server/src/stock/grid.ts';
import { stockJob } from '../../../server/src/stock/job.ts';
import { collisions, type KeepOutBox } from '../../../server/src/stock/keep-out.ts';
import { createMillStock, type MillStock } from '../../../server/src/stock/mill.ts';
import { type Move, movesOf } from '../../../server/src/stock/moves.ts';

const flat = cutter({ kind: 'flat', diameter_mm: 10 }) as Cutter;
const held = cutter({
  kind: 'flat',
  diameter_mm: 10,
  flute_length_mm: 20,
  shank_diameter_mm: 10,
  stickout_mm: 30,
  holder_diameter_mm: 40,
  holder_length_mm: 50,
}) as Cutter;
const ball = cutter({ kind: 'ball', diameter_mm: 10 }) as Cutter;

const jaw: KeepOutBox = { what: 'jaw', low: [0, -30, -10], high: [100, -5, 5] };

describe('keep-out boxes', () => {
  const cases: readonly { name: string; move: Move; tool: Cutter; hits: readonly string[] }[] = [
    {
      name: 'passes 1 mm beside the jaw',
      move: { kind: 'feed', from: [0, 1, -5], to: [100, 1, -5] },
      tool: flat,
      hits: [],
    },
    {
      name: 'touches the jaw',
      move: { kind: 'feed', from: [0, 0, -5], to: [100, 0, -5] },
      tool: flat,
      hits: [],
    },
    {
      name: 'cuts 1 mm into the jaw',
      move: { kind: 'feed', from: [0, -1, -5], to: [100, -1, -5] },
      tool: flat,
      hits: ['tool'],
    },
    {
      name: 'rapid over the jaw',
      move: { kind: 'rapid', from: [50, -60, 6], to: [50, 20, 6] },
      tool: flat,
      hits: [],
    },
    {
      name: 'rapid down into the jaw',
      move: { kind: 'rapid', from: [50, -20, 50], to: [50, -20, 4] },
      tool: flat,
      hits: ['tool'],
    },
    {
      name: 'ramp that clears the jaw',
      move: { kind: 'feed', from: [50, -60, 40], to: [50, 20, 6] },
      tool: flat,
      hits: [],
    },
    {
      name: 'ramp that meets the jaw',
      move: { kind: 'feed', from: [50, -60, 12], to: [50, 20, -4] },
      tool: flat,
      hits: ['tool'],
    },
    {
      name: 'holder over the jaw',
      move: { kind: 'feed', from: [0, 4, -28], to: [100, 4, -28] },
      tool: held,
      hits: ['holder'],
    },
    {
      name: 'holder clear of the jaw',
      move: { kind: 'feed', from: [0, 4, -24], to: [100, 4, -24] },
      tool: held,
      hits: [],
    },
    {
      name: 'round of a ball passes the edge',
      move: { kind: 'feed', from: [0, -1, 4.9], to: [100, -1, 4.9] },
      tool: ball,
      hits: [],
    },
    {
      name: 'arc that swings into the jaw',
      move: { kind: 'arc', from: [40, 8, 0], to: [60, 8, 0], centre: [50, 8, 0], sweep_rad: Math.PI },
      tool: flat,
      hits: ['tool'],
    },
  ];
  for (const { name, move, tool, hits } of cases) {
    it(name, () => {
      const found = collisions(movesOf([move]), 0, tool, [jaw]);
      assert.deepEqual(
        found.map(hit => hit.part),
        hits,
      );
    });
  }

  it('says where it first touches', () => {
    const [hit] = collisions(movesOf([{ kind: 'rapid', from: [50, 40, 0], to: [50, -40, 0] }]), 0, flat, [
      jaw,
    ]);
    assert.ok(Math.abs(hit.at[1]) < 0.02, `touches at y ${hit.at[1]}`);
    assert.equal(hit.rapid, true);
  });
});

function pocketed(): MillStock {
  const stock = createMillStock({ low: [0, 0, -10], high: [40, 30, 0], cell_mm: 0.5 }, [flat]);
  stock.move({ kind: 'feed', from: [10, 12, -4], to: [25, 12, -4] });
  stock.move({ kind: 'feed', from: [32, 20, 2], to: [32, 20, -12] });
  return stock;
}

describe('jobs', () => {
  const moves = movesOf(
    Array.from({ length: 40 }, (_, k): Move => ({ kind: 'feed', from: [0, k / 2, -1], to: [40, k / 2, -1] })),
  );
  const block = { low: [0, 0, -10], high: [40, 30, 0], cell_mm: 0.5 } as const;

  it('works in pieces and equals one run', () => {
    const stock = createMillStock(block, [flat]);
    stock.append(moves);
    let clock = 0;
    const job = stockJob(stock, () => clock++);
    let ready = 0;
    let pieces = 0;
    for (let finished = false; !finished; pieces++) {
      const progress = job.advance(3);
      assert.equal(progress.from, ready);
      assert.ok(progress.to > progress.from);
      ready = progress.to;
      finished = progress.finished;
    }
    assert.ok(pieces > 1);
    const whole = createMillStock(block, [flat]);
    whole.append(moves);
    whole.finish();
    assert.equal(stock.heightUnitsLeft(), whole.heightUnitsLeft());
    assert.deepEqual(stock.figures.column('engagement_deg'), whole.figures.column('engagement_deg'));
  });

  it('divides a long helix into steps and still equals one run', () => {
    const helix: Move = {
      kind: 'arc',
      from: [28, 15, 0],
      to: [28, 15, -8],
      centre: [20, 15, 0],
      sweep_rad: 20 * Math.PI,
    };
    const stock = createMillStock({ ...block, cell_mm: 0.2 }, [flat]);
    stock.append(movesOf([helix]));
    let steps = 0;
    while (stock.step()) steps++;
    assert.ok(steps > 10, `${steps} steps`);
    // a ring of radii 3 and 13: pi (13^2 - 3^2) 8, less the slope that the last turn leaves under it
    assert.ok(Math.abs(stock.figures.get(0, 'removed_mm3') - 4021.24) < 0.06 * 4021.24);
    const whole = createMillStock({ ...block, cell_mm: 0.2 }, [flat]);
    assert.deepEqual(whole.move(helix), stock.figures.at(0));
  });

  it('takes numbers that are no numbers as no cut', () => {
    const stock = createMillStock(block, [flat, ball]);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      for (const tool of [0, 1]) {
        stock.move({ kind: 'feed', from: [5, 5, -1], to: [bad, 5, -1] }, tool);
        stock.move({ kind: 'feed', from: [5, 5, -1], to: [5, 5, bad] }, tool);
        stock.move(
          { kind: 'arc', from: [5, 5, -1], to: [9, 5, -1], centre: [bad, 5, -1], sweep_rad: 3 },
          tool,
        );
        stock.move(
          { kind: 'arc', from: [5, 5, -1], to: [9, 5, -1], centre: [7, 5, -1], sweep_rad: bad },
          tool,
        );
      }
    }
    assert.equal(stock.heightUnitsRemoved(), 0);
    assert.equal(stock.heightUnitsLeft(), stock.heightUnitsAtStart());
  });

  it('stops when told', () => {
    const stock = createMillStock(block, [flat]);
    stock.append(moves);
    let clock = 0;
    const job = stockJob(stock, () => clock++);
    const done = job.advance(2).to;
    job.cancel();
    const after = job.advance(1000);
    assert.deepEqual([after.from, after.to, after.finished], [done, done, true]);
  });
});

describe('end states', () => {
  it('survive packing, and a stock made of one has the same volume', () => {
    const stock = pocketed();
    const state = unpackState(packState(endState(stock)));
    assert.ok(state !== undefined);
    const next = createMillStock(blockOf(state), [flat]);
    assert.equal(next.heightUnitsLeft(), stock.heightUnitsLeft());
    const again = next.move({ kind: 'feed', from: [10, 12, -4], to: [25, 12, -4] });
    assert.equal(again.air_share, 1);
  });

  it('are refused when the bytes are not a state', () => {
    assert.equal(unpackState(new Uint8Array([1, 2, 3])), undefined);
    assert.equal(unpackState(new Uint8Array(64).fill(255)), undefined);
    assert.equal(unpackState(packState(endState(pocketed())).subarray(0, 200)), undefined);
  });

  it('turned over: pockets are solid again and said so, holes stay', () => {
    const stock = pocketed();
    const over = turned(endState(stock), 'flip-x');
    assert.deepEqual(over.not_modelled, ['pockets of the side that now lies below count as solid']);
    const next = createMillStock(blockOf(over), [flat]);
    // the block less the hole: 40 30 10 - pi 25 10
    assert.ok(Math.abs(next.volume_mm3() - 11214.6) < 8, `${next.volume_mm3()}`);
    assert.equal(next.move({ kind: 'feed', from: [32, 10, 5], to: [32, 10, -12] }).air_share > 0.99, true);
    assert.ok(next.move({ kind: 'feed', from: [10, 18, -3], to: [25, 18, -3] }).removed_mm3 > 100);
  });

  it('turned over: where a ball went through there is a hole', () => {
    const plate = createMillStock({ low: [0, 0, -3], high: [40, 30, 0], cell_mm: 0.5 }, [ball]);
    plate.move({ kind: 'feed', from: [10, 15, -4], to: [30, 15, -4] });
    const next = createMillStock(blockOf(turned(endState(plate), 'flip-x')), [flat]);
    // half as wide as sqrt(25 - 16) under the plate: 40 30 3 - 3 (20 6 + pi 9)
    assert.ok(Math.abs(next.volume_mm3() - 3155.2) < 12, `${next.volume_mm3()}`);
  });

  it('turned round and round is itself', () => {
    const state = endState(pocketed());
    const back = turned(turned(turned(turned(state, 'z-90'), 'z-90'), 'z-90'), 'z-90');
    assert.deepEqual(back.floor, state.floor);
    assert.deepEqual(turned(state, 'z-270').top, turned(turned(state, 'z-180'), 'z-90').top);
  });

  it('are moved to where they lie next', () => {
    const moved = placed(endState(pocketed()), [-20, -15, -10]);
    const stock = createMillStock(blockOf(moved), [flat]);
    assert.equal(stock.move({ kind: 'feed', from: [-10, -3, -4], to: [5, -3, -4] }).air_share, 1);
  });
});

describe('grid', () => {
  it('fills the block with whole cells and stays bounded', () => {
    const grid = layGrid({ low: [0, 0, 0], high: [33.3, 21.7, 5], cell_mm: 0.4 });
    assert.ok(Math.abs(grid.columns * grid.cx - 33.3) < 1e-9);
    assert.ok(defaultCell([0, 0, 0], [2000, 2000, 10], [0.5]) >= 1);
    assert.throws(() => layGrid({ low: [0, 0, 0], high: [0, 1, 1], cell_mm: 1 }), RangeError);
  });

  it('holds a round bar and a tube on end', () => {
    const round = { x_mm: 20, y_mm: 20, radius_mm: 18, bore_mm: 10 };
    const stock = createMillStock({ low: [0, 0, -10], high: [40, 40, 0], cell_mm: 0.5, round }, [flat]);
    // pi (18^2 - 5^2) 10
    assert.ok(Math.abs(stock.volume_mm3() - 9393.36) < 20, `${stock.volume_mm3()}`);
    const pass = stock.move({ kind: 'feed', from: [-10, 20, -1], to: [50, 20, -1] });
    assert.ok(pass.air_share > 0.3 && pass.air_share < 0.5);
  });
});
