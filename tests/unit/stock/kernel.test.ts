/** The compiled kernel against the plain one: the same numbers, to the last bit. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Cutter, cutter } from '../../../server/src/stock/cutter.ts';
import { figureNames } from '../../../server/src/stock/figures.ts';
import type { Grid, StockBlock } from '../../../server/src/stock/grid.ts';
import { compiledKernel, type Kernel, kernelFor, plainKernel } from '../../../server/src/stock/kernel.ts';
import { kernelSources } from '../../../server/src/stock/kernel-bytes.ts';
import { createMillStock, type MillStock } from '../../../server/src/stock/mill.ts';
import { type Move, movesOf, type Point } from '../../../server/src/stock/moves.ts';
import { kernelDigest } from '../kernel-digest.ts';

type ToolMove = Move & { tool: number };

const tools = [
  cutter({ kind: 'flat', diameter_mm: 6 }),
  cutter({ kind: 'ball', diameter_mm: 8 }),
  cutter({ kind: 'bull-nose', diameter_mm: 6, corner_radius_mm: 1 }),
  cutter({ kind: 'drill', diameter_mm: 5, point_angle_deg: 118 }),
  cutter({
    kind: 'flat',
    diameter_mm: 4,
    flute_length_mm: 3,
    shank_diameter_mm: 6,
    stickout_mm: 5,
    holder_diameter_mm: 12,
  }),
] as Cutter[];

function compiled(grid: Grid): Kernel {
  const kernel = compiledKernel(grid);
  assert.ok(kernel !== undefined, 'this host runs the compiled kernel');
  return kernel;
}

const block: StockBlock = { low: [0, 0, -10], high: [40, 30, 0], cell_mm: 0.5, tile_cells: 24 };

function cut(moves: readonly ToolMove[], kernel: (grid: Grid) => Kernel, of: StockBlock = block): MillStock {
  const stock = createMillStock(of, tools, { snapshot_every: 4, kernel });
  stock.append(movesOf(moves));
  stock.finish();
  return stock;
}

function same(a: MillStock, b: MillStock): void {
  for (let move = 0; move < a.moves.count; move++) {
    for (const name of figureNames)
      assert.equal(a.figures.get(move, name), b.figures.get(move, name), `${name} of move ${move}`);
  }
  const other = b.tiles();
  a.tiles().forEach((tile, at) => {
    assert.deepEqual(tile.floor, other[at].floor);
    assert.deepEqual(tile.top, other[at].top);
    assert.deepEqual(tile.side, other[at].side);
  });
}

const coordinate = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: low, max: high, noNaN: true });
const point = fc.tuple(coordinate(-4, 44), coordinate(-4, 34), coordinate(-6, 1)) as fc.Arbitrary<Point>;
const tool = fc.nat(tools.length - 1);
const line: fc.Arbitrary<ToolMove[]> = fc
  .record({ from: point, to: point, tool })
  .map(move => [{ kind: 'feed' as const, ...move }]);
const arc: fc.Arbitrary<ToolMove[]> = fc
  .record({
    centre: point,
    radius: coordinate(1, 8),
    sweep: coordinate(-7, 7),
    rise: coordinate(-2, 1),
    tool,
  })
  .map(({ centre, radius, sweep, rise, tool }) => [
    {
      kind: 'arc' as const,
      from: [centre[0] + radius, centre[1], centre[2]],
      to: [centre[0] + radius * Math.cos(sweep), centre[1] + radius * Math.sin(sweep), centre[2] + rise],
      centre,
      sweep_rad: sweep,
      tool,
    },
  ]);
/** Short level pieces, each from the end of the last: the fast case. */
const chain: fc.Arbitrary<ToolMove[]> = fc
  .record({ start: point, turns: fc.array(coordinate(-1, 1), { minLength: 4, maxLength: 30 }), tool })
  .map(({ start, turns, tool }) => {
    let [x, y] = start;
    let angle = 0;
    return turns.map(turn => {
      const from: Point = [x, y, start[2]];
      angle += turn;
      x += 0.8 * Math.cos(angle);
      y += 0.8 * Math.sin(angle);
      return { kind: 'feed' as const, from, to: [x, y, start[2]] as Point, tool };
    });
  });
const program = fc
  .array(fc.oneof(line, line, arc, chain, chain), { minLength: 1, maxLength: 8 })
  .map(parts => parts.flat());

describe('compiled kernel', () => {
  it('is made from the sources as they are', () => {
    assert.equal(
      kernelSources,
      kernelDigest(['kernel', 'src/stock/kernel']),
      'the kernel is stale: run npm run kernel',
    );
  });

  it('gives the figures and cells of the plain one, to the last bit', () => {
    fc.assert(
      fc.property(program, moves => {
        same(cut(moves, compiled), cut(moves, plainKernel));
      }),
      { numRuns: 60, seed: 21 },
    );
  });

  it('gives them in a round bar with a bore', () => {
    const round = { x_mm: 20, y_mm: 15, radius_mm: 14, bore_mm: 9 };
    fc.assert(
      fc.property(program, moves => {
        same(cut(moves, compiled, { ...block, round }), cut(moves, plainKernel, { ...block, round }));
      }),
      { numRuns: 15, seed: 22 },
    );
  });

  it('gives them after an edit', () => {
    fc.assert(
      fc.property(program, program, fc.nat(40), fc.nat(6), (before, inserted, where, count) => {
        const at = Math.min(where, before.length);
        const removed = Math.min(count, before.length - at);
        const stock = cut(before, compiled);
        stock.edit(at, removed, movesOf(inserted));
        same(stock, cut([...before.slice(0, at), ...inserted, ...before.slice(at + removed)], plainKernel));
      }),
      { numRuns: 20, seed: 23 },
    );
  });

  it('two stocks at work at the same time do not disturb each other', () => {
    for (const kernel of [compiled, plainKernel]) {
      const a = createMillStock(block, tools, { kernel });
      const b = createMillStock({ ...block, cell_mm: 0.4 }, tools, { kernel });
      const alone = createMillStock(block, tools, { kernel });
      for (let k = 0; k < 6; k++) {
        const move: Move = { kind: 'feed', from: [5 + k, 8, -1 - k / 4], to: [30, 8 + 2 * k, -1 - k / 4] };
        a.move(move, k % 4);
        b.move(move, (k + 1) % 4);
        alone.move(move, k % 4);
      }
      same(a, alone);
    }
  });

  it('is the one that is taken where it runs', () => {
    const stock = createMillStock(block, tools);
    assert.equal(
      kernelFor(stock.grid).rows.buffer instanceof ArrayBuffer &&
        kernelFor(stock.grid).rows.buffer !== plainKernel(stock.grid).rows.buffer,
      true,
    );
  });
});
