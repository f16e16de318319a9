/** Cutting stock against a plain stamp of the tool's footprint, both in this run, in turn. Prints ratios; nothing here fails. */
import { cutTile } from '../../server/src/stock/cut-tile.ts';
import { type Cutter, cutter } from '../../server/src/stock/cutter.ts';
import { layGrid } from '../../server/src/stock/grid.ts';
import { kernelFor } from '../../server/src/stock/kernel.ts';
import { createMillStock } from '../../server/src/stock/mill.ts';
import { emptyMoves, type MoveColumns, type Point, pushMove } from '../../server/src/stock/moves.ts';
import { MovePath } from '../../server/src/stock/path.ts';
import { heightUnits, Tile, tileCells } from '../../server/src/stock/tile.ts';
import { TileLog } from '../../server/src/stock/tile-log.ts';

const block = (cell_mm: number) => ({ low: [0, 0, -size.z], high: [size.x, size.y, 0], cell_mm }) as const;
const size = { x: 200, y: 150, z: 30 };
const stampCell = 0.25;
const segments = 100_000;
const segment_mm = 0.5;
const diameter_mm = 10;

interface Run {
  readonly ms: number;
  readonly removed: number;
}

/**
 * Raster passes over the block, level after level, in segments of half a millimetre: a flat tool at a side step of 4 mm, 1 mm a
 * level (some 30 cells wholly new a segment), a ball at 0.6 mm.
 */
function raster(step_mm: number, height: (x: number, y: number, level: number) => number): MoveColumns {
  const moves = emptyMoves(segments + 64);
  const perPass = 380;
  let level = 0;
  while (moves.count < segments) {
    level++;
    for (let y = 5, pass = 0; y <= 145 && moves.count < segments; y += step_mm, pass++) {
      const way = pass % 2 === 0 ? 1 : -1;
      const start = way > 0 ? 5 : 195;
      let from: Point = [start, y, height(start, y, level)];
      for (let k = 1; k <= perPass && moves.count < segments; k++) {
        const x = start + way * k * segment_mm;
        const to: Point = [x, y, height(x, y, level)];
        pushMove(moves, { kind: 'feed', from, to }, 0);
        from = to;
      }
    }
  }
  return moves;
}

/** The naive model: at most a cell per step, the whole footprint each time, no figures. */
function stamp(moves: MoveColumns, ball: boolean): Run {
  const columns = size.x / stampCell;
  const heights = new Float32Array(columns * (size.y / stampCell)).fill(0);
  const reach = diameter_mm / 2 / stampCell;
  const offsets: number[] = [];
  const rises: number[] = [];
  for (let j = -reach; j <= reach; j++) {
    for (let i = -reach; i <= reach; i++) {
      const d2 = (i * i + j * j) * stampCell * stampCell;
      const r = diameter_mm / 2;
      if (d2 > r * r) continue;
      offsets.push(j * columns + i);
      rises.push(ball ? r - Math.sqrt(r * r - d2) : 0);
    }
  }
  const offset = Int32Array.from(offsets);
  const rise = Float32Array.from(rises);
  const n = moves.numbers;
  const started = performance.now();
  for (let move = 0; move < moves.count; move++) {
    const at = move * 10;
    const steps = Math.ceil(
      Math.hypot(n[at + 3] - n[at], n[at + 4] - n[at + 1], n[at + 5] - n[at + 2]) / stampCell - 1e-6,
    );
    for (let k = 0; k <= steps; k++) {
      const part = k / steps;
      const x = n[at] + (n[at + 3] - n[at]) * part;
      const y = n[at + 1] + (n[at + 4] - n[at + 1]) * part;
      const z = n[at + 2] + (n[at + 5] - n[at + 2]) * part;
      const centre = Math.round(y / stampCell) * columns + Math.round(x / stampCell);
      for (let p = 0; p < offset.length; p++) {
        const cell = centre + offset[p];
        const height = z + rise[p];
        if (heights[cell] > height) heights[cell] = height;
      }
    }
  }
  const ms = performance.now() - started;
  let removed = 0;
  for (let k = 0; k < heights.length; k++) removed -= heights[k];
  return { ms, removed: removed * stampCell * stampCell };
}

function engine(moves: MoveColumns, tool: Cutter, cell_mm: number): Run {
  const stock = createMillStock(block(cell_mm), [tool]);
  stock.append(moves);
  const started = performance.now();
  stock.finish();
  const ms = performance.now() - started;
  return { ms, removed: stock.startVolume_mm3() - stock.volume_mm3() };
}

/** The sweeps without what is read along the path: volume a segment, or with `sizes` volume, greatest depth and width. */
function sweeps(moves: MoveColumns, tool: Cutter, cell_mm: number, sizes: boolean): Run {
  const grid = layGrid(block(cell_mm));
  const kernel = kernelFor(grid);
  kernel.wantSizes(sizes);
  const logs: TileLog[] = [];
  for (let k = 0; k < grid.tilesX * grid.tilesY; k++) {
    const { cells, blocks } = tileCells(grid, k % grid.tilesX, Math.floor(k / grid.tilesX));
    const tile = new Tile(grid, k % grid.tilesX, Math.floor(k / grid.tilesX), kernel.room(cells, blocks));
    logs.push(new TileLog(tile, Number.POSITIVE_INFINITY));
  }
  const path = new MovePath(kernel);
  const far = tool.radius_mm + 1;
  const depth = new Float32Array(moves.count);
  const width = new Float32Array(moves.count);
  const n = moves.numbers;
  const started = performance.now();
  for (let move = 0; move < moves.count; move++) {
    path.prepare(moves, move, tool, grid);
    path.list.count = 0;
    const x = n[move * 10];
    const y = n[move * 10 + 1];
    for (const log of logs) {
      const { xLow, xHigh, yLow, yHigh } = log.tile;
      if (x + far < xLow || x - far > xHigh || y + far < yLow || y - far > yHigh) continue;
      cutTile(kernel, path, move, tool, 0, log, { piece: 0, station: 0 });
      if (!sizes) continue;
      depth[move] = Math.max(depth[move], kernel.depthCut());
      width[move] = Math.max(width[move], kernel.widthCut());
    }
  }
  const ms = performance.now() - started;
  let units = 0;
  for (const log of logs) for (let k = 0; k < log.count; k++) units += log.removed[k];
  kernel.wantSizes(false);
  return { ms, removed: (units / heightUnits) * grid.cx * grid.cy };
}

function median(values: number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1];
}

function spread(values: number[]): string {
  return `${Math.min(...values).toFixed(1)} / ${median(values).toFixed(1)} / ${Math.max(...values).toFixed(1)}`;
}

/** Runs the comparison and returns the printed lines. */
export function stockBench(rounds = 5): string[] {
  const lines: string[] = [];
  const cases = [
    { name: 'flat, pockets in levels', kind: 'flat' as const, moves: raster(4, (_x, _y, level) => -level) },
    { name: 'ball, level finishing', kind: 'ball' as const, moves: raster(0.6, () => -0.83) },
    {
      name: 'ball, waved finishing',
      kind: 'ball' as const,
      moves: raster(0.6, (x, y) => -2 + 1.2 * Math.sin(x / 15) * Math.cos(y / 20)),
    },
  ];
  for (const { name, kind, moves } of cases) {
    const tool = cutter({ kind, diameter_mm });
    if ('missing' in tool) continue;
    for (const cell of [0.25, diameter_mm / 20]) {
      const full: number[] = [];
      const sized: number[] = [];
      const bare: number[] = [];
      let own: Run = { ms: 0, removed: 0 };
      let plain = own;
      let swept = own;
      for (let round = 0; round < rounds; round++) {
        plain = stamp(moves, kind === 'ball');
        own = engine(moves, tool, cell);
        full.push(plain.ms / own.ms);
        sized.push(plain.ms / sweeps(moves, tool, cell, true).ms);
        swept = sweeps(moves, tool, cell, false);
        bare.push(plain.ms / swept.ms);
      }
      const goal = kind === 'ball' ? 5 : 10;
      const like = cell === stampCell ? 'like for like' : 'cells of the default size';
      lines.push(
        `stock, ${name}, cells ${cell} mm (${like}) against the stamp of ${stampCell} mm: with all figures ${spread(full)} x, ` +
          `volume, greatest depth and width ${spread(sized)} x, volume alone ${spread(bare)} x (wanted ${goal}); ${Math.round(segments / own.ms)} k and ${Math.round(segments / swept.ms)} k segments/s, ` +
          `volume ${(own.removed / 1000).toFixed(3)} and ${(swept.removed / 1000).toFixed(3)} cm3, stamp ${(plain.removed / 1000).toFixed(3)} cm3`,
      );
    }
  }
  const field = new Float32Array((size.x / stampCell) * (size.y / stampCell));
  const copies: number[] = [];
  for (let round = 0; round < 20; round++) {
    const started = performance.now();
    field.slice();
    copies.push(performance.now() - started);
  }
  lines.push(
    `stock, memory: the field of ${stampCell} mm copied once takes ${median(copies).toFixed(2)} ms: memory is not the limit`,
  );
  return lines;
}

if (process.argv[1]?.endsWith('stock.bench.ts')) for (const line of stockBench(3)) console.log(line);
