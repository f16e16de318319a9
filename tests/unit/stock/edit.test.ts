/** Edits, order of tiles and conservation, on moves drawn at random (fixed seed). */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Cutter, cutter } from '../../../server/src/stock/cutter.ts';
import { figureNames } from '../../../server/src/stock/figures.ts';
import type { Grid } from '../../../server/src/stock/grid.ts';
import { type Kernel, kernelFor } from '../../../server/src/stock/kernel.ts';
import { createMillStock, type MillStock } from '../../../server/src/stock/mill.ts';
import { type Move, movesOf, type Point } from '../../../server/src/stock/moves.ts';

type ToolMove = Move & { tool: number };

const tools = [
  cutter({ kind: 'flat', diameter_mm: 6 }),
  cutter({ kind: 'ball', diameter_mm: 8 }),
  cutter({ kind: 'bull-nose', diameter_mm: 6, corner_radius_mm: 1 }),
  cutter({ kind: 'drill', diameter_mm: 5, point_angle_deg: 118 }),
] as Cutter[];

const BLOCK = { low: [0, 0, -10], high: [40, 30, 0], cell_mm: 0.5, tile_cells: 16 } as const;

function fresh(moves: readonly ToolMove[], tile_cells = 16): MillStock {
  const stock = createMillStock({ ...BLOCK, tile_cells }, tools, { snapshot_every: 4 });
  stock.append(movesOf(moves));
  stock.finish();
  return stock;
}

const coordinate = (low: number, high: number) => fc.integer({ min: low * 8, max: high * 8 }).map(n => n / 8);
const point = fc.tuple(coordinate(-4, 44), coordinate(-4, 34), coordinate(-6, 2));
const place: fc.Arbitrary<ToolMove> = fc.record({
  kind: fc.constantFrom('feed' as const, 'feed' as const, 'rapid' as const),
  from: point,
  to: point,
  tool: fc.nat(3),
});
const arc: fc.Arbitrary<ToolMove> = fc
  .record({
    centre: point,
    radius: coordinate(1, 8),
    start: fc.nat(7),
    turn: fc.integer({ min: -9, max: 9 }),
    tool: fc.nat(3),
  })
  .map(({ centre: [x, y, z], radius, start, turn, tool }) => {
    const at = (angle: number): Point => [x + radius * Math.cos(angle), y + radius * Math.sin(angle), z];
    const from = (start * Math.PI) / 4;
    const sweep = ((turn === 0 ? 1 : turn) * Math.PI) / 4;
    return {
      kind: 'arc' as const,
      from: at(from),
      to: at(from + sweep),
      centre: [x, y, z] as Point,
      sweep_rad: sweep,
      tool,
    };
  });
/** Chains of short moves, so that the fast ways for moves that go on where the last ended are met. */
const chain: fc.Arbitrary<ToolMove[]> = fc
  .record({
    start: point,
    tool: fc.nat(3),
    steps: fc.array(fc.tuple(coordinate(-2, 2), coordinate(-2, 2), coordinate(-1, 1)), { maxLength: 8 }),
  })
  .map(({ start, tool, steps }) => {
    let from = start;
    return steps.map(([dx, dy, dz]): ToolMove => {
      const to: [number, number, number] = [
        from[0] + dx,
        from[1] + dy,
        Math.max(-8, from[2] + (dz < 0.5 ? 0 : dz)),
      ];
      const move: ToolMove = { kind: 'feed', from, to, tool };
      from = to;
      return move;
    });
  });
const program = fc
  .array(
    fc.oneof(
      place.map(m => [m]),
      arc.map(m => [m]),
      chain,
    ),
    { maxLength: 12 },
  )
  .map(parts => parts.flat());

function same(a: MillStock, b: MillStock): void {
  assert.equal(a.moves.count, b.moves.count);
  assert.equal(a.heightUnitsLeft(), b.heightUnitsLeft());
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

describe('mill stock, edits', () => {
  it('an edit equals a fresh run, figure by figure and cell by cell', () => {
    fc.assert(
      fc.property(program, program, fc.nat(40), fc.nat(6), (before, inserted, where, count) => {
        const at = Math.min(where, before.length);
        const removed = Math.min(count, before.length - at);
        const stock = fresh(before);
        stock.edit(at, removed, movesOf(inserted));
        same(stock, fresh([...before.slice(0, at), ...inserted, ...before.slice(at + removed)]));
      }),
      { numRuns: 40, seed: 8 },
    );
  });

  it('edits that come before the first cutting or earlier ones are worked off equal a fresh run of the last list', () => {
    const edit = fc.record({ inserted: program, where: fc.nat(40), count: fc.nat(6), steps: fc.nat(25) });
    const edits_of = fc.array(edit, { minLength: 2, maxLength: 4 });
    fc.assert(
      fc.property(program, edits_of, fc.nat(120), (before, edits, first) => {
        const stock = createMillStock(BLOCK, tools, { snapshot_every: 4 });
        stock.append(movesOf(before));
        for (let k = 0; k < first; k++) stock.step();
        let list = before;
        for (const { inserted, where, count, steps } of edits) {
          const at = Math.min(where, list.length);
          const removed = Math.min(count, list.length - at);
          stock.beginEdit(at, removed, movesOf(inserted));
          list = [...list.slice(0, at), ...inserted, ...list.slice(at + removed)];
          for (let k = 0; k < steps; k++) stock.step();
          const right = fresh(list);
          for (let move = 0; move < stock.done; move++)
            for (const name of figureNames)
              assert.equal(
                stock.figures.get(move, name),
                right.figures.get(move, name),
                `${name} of ${move}`,
              );
        }
        stock.finish();
        same(stock, fresh(list));
      }),
      { numRuns: 40, seed: 12 },
    );
  });

  it('an edit is worked off in steps that cut at most once in one tile each', () => {
    let cuts = 0;
    const kernel = (grid: Grid): Kernel => {
      const made = kernelFor(grid);
      const { cut } = made;
      return Object.assign(made, {
        cut: (...given: Parameters<Kernel['cut']>) => {
          cuts++;
          return cut(...given);
        },
      });
    };
    const helix = (x: number): ToolMove => ({
      ...{ kind: 'arc', from: [x, 15, 0], to: [x, 15, -4], centre: [20, 15, 0], tool: 1 },
      sweep_rad: 40 * Math.PI,
    });
    const block = { low: [0, 0, -10], high: [40, 30, 0], cell_mm: 0.1, tile_cells: 100 } as const;
    const stock = createMillStock(block, tools, { kernel });
    stock.append(movesOf([helix(26), helix(28), helix(30)]));
    stock.finish();
    const first = cuts;
    stock.beginEdit(1, 1, movesOf([helix(29)]));
    assert.equal(cuts, first, 'cut before the first step');
    let steps = 0;
    for (let before = cuts; stock.step(); before = cuts, steps++)
      assert.ok(cuts - before <= 1, `${cuts - before} cuts in one step`);
    assert.ok(cuts - first > 100, `${cuts - first} cuts`);
    assert.ok(steps > cuts - first, `${steps} steps`);
  });

  it('what the moves took is what the block lacks, exactly', () => {
    fc.assert(
      fc.property(program, moves => {
        const stock = fresh(moves);
        assert.equal(stock.heightUnitsAtStart() - stock.heightUnitsLeft(), stock.heightUnitsRemoved());
      }),
      { numRuns: 80, seed: 9 },
    );
  });

  it('size and order of the tiles change neither cells nor the volume of a move', () => {
    fc.assert(
      fc.property(program, moves => {
        const small = fresh(moves, 16);
        const large = fresh(moves, 128);
        const cells = small.grid.columns * small.grid.rows;
        // a cut that starts where the last ended skips what is cut: rounding may differ by units where that falls on a tile's edge
        assert.ok(Math.abs(small.heightUnitsLeft() - large.heightUnitsLeft()) <= cells * 4);
        for (let move = 0; move < moves.length; move++) {
          const a = small.figures.get(move, 'removed_mm3');
          const b = large.figures.get(move, 'removed_mm3');
          assert.ok(Math.abs(a - b) <= 0.01 * Math.abs(b) + 0.5, `move ${move}: ${a}, ${b}`);
        }
      }),
      { numRuns: 40, seed: 10 },
    );
  });

  it('reads the same engagement however the tiles lie', () => {
    for (const tool of [0, 1, 2]) {
      const moves: ToolMove[] = [
        { kind: 'feed', from: [4, 15.1, -2], to: [36, 15.1, -2], tool },
        { kind: 'feed', from: [4, 16.4, -2], to: [36, 16.4, -2], tool },
        { kind: 'feed', from: [6, 5, -1], to: [30, 26, -1], tool },
      ];
      const small = fresh(moves, 16);
      const large = fresh(moves, 128);
      for (let move = 0; move < moves.length; move++) {
        for (const name of ['engagement_deg', 'mean_engagement_deg'] as const) {
          const a = small.figures.get(move, name);
          const b = large.figures.get(move, name);
          assert.ok(Math.abs(a - b) < 3, `tool ${tool}, move ${move}, ${name}: ${a}, ${b}`);
        }
      }
    }
  });

  it('agrees with a plain model of sampled points, volume within 2 % or a few cells', () => {
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 5 }), moves => {
        const stock = fresh(moves);
        const removed = stock.startVolume_mm3() - stock.volume_mm3();
        const plain = plainModel(moves);
        assert.ok(Math.abs(removed - plain) <= 0.02 * plain + 6, `${removed}, plain model ${plain}`);
      }),
      { numRuns: 25, seed: 11 },
    );
  });

  it('cuts again only the tiles that the changed move touches', () => {
    const passes: ToolMove[] = [];
    for (let y = 0; y < 160; y += 20) {
      for (let x = 0; x < 160; x += 20) {
        passes.push({ kind: 'feed', from: [x + 8, y + 8, -1], to: [x + 12, y + 12, -1], tool: 0 });
      }
    }
    const block = { low: [0, 0, -10], high: [160, 160, 0], cell_mm: 0.5, tile_cells: 40 } as const;
    const stock = createMillStock(block, tools);
    stock.append(movesOf(passes));
    stock.finish();
    assert.equal(stock.tiles().length, 64);
    const replay = stock.edit(27, 1, movesOf([{ ...passes[27], to: [72, 72, -2] }]));
    assert.equal(replay.tiles, 1);
    assert.equal(replay.moves, 1);
    assert.equal(replay.first, 27);
    assert.equal(replay.last, 27);
  });

  it('starts again from a kept state, not from the beginning', () => {
    const passes: ToolMove[] = Array.from({ length: 200 }, (_, k) => ({
      kind: 'feed' as const,
      from: [5, 15, -k / 40] as Point,
      to: [35, 15, -k / 40] as Point,
      tool: 0,
    }));
    const stock = createMillStock({ low: [0, 0, -10], high: [40, 30, 0], cell_mm: 0.5 }, tools, {
      snapshot_every: 16,
    });
    stock.append(movesOf(passes));
    stock.finish();
    const replay = stock.edit(199, 1, movesOf([]));
    assert.equal(replay.tiles, 1);
    assert.ok(replay.moves <= 70, `${replay.moves} moves`);
  });
});

/** Points 0.25 mm apart; each move sampled every 0.02 mm. */
function plainModel(moves: readonly ToolMove[]): number {
  const step = 0.25;
  const columns = 160;
  const rows = 120;
  const heights = new Float64Array(columns * rows);
  for (const move of moves) {
    const tool = tools[move.tool];
    const length = Math.hypot(...move.to.map((value, axis) => value - move.from[axis]));
    const samples = Math.max(1, Math.ceil(length / 0.1));
    for (let s = 0; s <= samples; s++) {
      const [x, y, z] = move.from.map((value, axis) => value + ((move.to[axis] - value) * s) / samples);
      if (z >= 0) continue;
      const r = tool.radius_mm;
      for (let j = Math.max(0, Math.floor((y - r) / step)); j <= Math.min(rows - 1, (y + r) / step); j++) {
        for (
          let i = Math.max(0, Math.floor((x - r) / step));
          i <= Math.min(columns - 1, (x + r) / step);
          i++
        ) {
          const d = Math.hypot((i + 0.5) * step - x, (j + 0.5) * step - y);
          if (d > r) continue;
          const over = Math.max(0, d - tool.flat_mm);
          const rise =
            tool.shape === 'round'
              ? tool.corner_mm - Math.sqrt(Math.max(0, tool.corner_mm ** 2 - over ** 2))
              : tool.slope * over;
          const at = j * columns + i;
          heights[at] = Math.min(heights[at], Math.max(-10, z + rise));
        }
      }
    }
  }
  return -heights.reduce((sum, height) => sum + height, 0) * step * step;
}
