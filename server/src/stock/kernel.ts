/** The kernel that cuts: compiled where the host can run it, else the plain one out of the same source. */
import { memoryOf } from '../rs274/compiled-module.ts';
import type { Cutter } from './cutter.ts';
import type { Grid } from './grid.ts';
import * as plain from './kernel/index.ts';
import * as memory from './kernel/memory.ts';
import { kernelModule } from './kernel-module.ts';
import { heightUnits, type Tile, type TileRoom, tileCells } from './tile.ts';

/** One kernel serves one stock. */
export interface Kernel {
  /** Where the path of the move in work stands: see `MovePath`. */
  readonly path: typeof memory.path;
  /** Rows found by the last `cut`, one after the other. */
  readonly rows: Float32Array;
  /** Room for the next tile; tiles must be made in the order and number that the grid says. */
  room(cells: number, blocks: number): TileRoom;
  /** See `cutPieces`. */
  cut(
    tile: Tile,
    tool: Cutter,
    toolIndex: number,
    piece: number,
    end: number,
    station: number,
    stations: number,
  ): number;
  stationAfter(): number;
  rowsFound(): number;
  /** Asks for the depth and width of what each `cut` takes out: a yardstick for the bench. */
  wantSizes(wanted: boolean): void;
  /** Both in mm: see `kernel/sizes.ts`. */
  depthCut(): number;
  widthCut(): number;
  /** To be called when a tile was changed by others. */
  forget(): void;
}

/** The compiled kernel for `grid`, or the plain one where there is no WebAssembly with SIMD or no memory for it. */
export function kernelFor(grid: Grid): Kernel {
  return compiledKernel(grid) ?? plainKernel(grid);
}

const shapes = ['flat', 'round', 'cone'] as const;

type Exports = Pick<
  typeof plain,
  | 'setGrid'
  | 'setTile'
  | 'setTool'
  | 'addBody'
  | 'cutPieces'
  | 'stationAfter'
  | 'rowsFound'
  | 'wantSizes'
  | 'depthCut'
  | 'widthCut'
  | 'begin'
>;

function setGrid(kernel: Exports, grid: Grid): void {
  const { low, high } = grid.block;
  kernel.setGrid(grid.cx, grid.cy, Math.round(low[2] * heightUnits), Math.round(high[2] * heightUnits));
}

function setTile(kernel: Exports, tile: Tile): void {
  const { w, h, nw, nh, ox, oy, xLow, xHigh, yLow, yHigh } = tile;
  kernel.setTile(tile.floor !== undefined, w, h, nw, nh, ox, oy, xLow, xHigh, yLow, yHigh);
}

function setTool(kernel: Exports, tool: Cutter): void {
  kernel.setTool(
    shapes.indexOf(tool.shape),
    tool.kind === 'ball',
    tool.radius_mm,
    tool.flat_mm,
    tool.corner_mm,
    tool.slope,
    tool.edge_height_mm,
    tool.widest_mm,
  );
  for (const body of tool.body) kernel.addBody(body.radius_mm, body.low_mm);
}

/** The kernel in plain TypeScript: the model that the compiled one is tested against. */
export function plainKernel(grid: Grid): Kernel {
  plain.begin();
  return {
    path: memory.path,
    rows: memory.rows,
    room: (cells, blocks) => ({
      cells: lazy(() => ({
        floor: new Int32Array(cells),
        top: new Int32Array(cells),
        side: new Int16Array(cells),
      })),
      blockTop: new Int32Array(blocks),
      blockAge: new Uint8Array(blocks),
      last: new Float64Array(4),
    }),
    cut(tile, tool, toolIndex, piece, end, station, stations) {
      tile.use(() => {
        tile.fill();
        tile.use(() => undefined);
      });
      setGrid(plain, grid);
      setTile(plain, tile);
      setTool(plain, tool);
      return plain.cutPieces(piece, end, station, stations, toolIndex);
    },
    stationAfter: plain.stationAfter,
    rowsFound: plain.rowsFound,
    wantSizes: plain.wantSizes,
    depthCut: plain.depthCut,
    widthCut: plain.widthCut,
    forget: () => undefined,
  };
}

/** Makes a thing when it is first asked for. */
function lazy<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}

interface CompiledExports extends Exports {
  addressOf(what: number): number;
  useAddresses(
    floor: number,
    top: number,
    side: number,
    blockTop: number,
    blockAge: number,
    last: number,
  ): void;
}

const pageBytes = 65_536;
/** Bytes read past a row of cells when four are looked at together. */
const margin = 16;

/** The compiled kernel; undefined where it cannot run. */
export function compiledKernel(grid: Grid): Kernel | undefined {
  const module = kernelModule();
  if (module === undefined) return undefined;
  let at = 2 * 1_048_576;
  let bytes = at + pageBytes;
  for (let tile = 0; tile < grid.tilesX * grid.tilesY; tile++) {
    const { cells, blocks } = tileCells(grid, tile % grid.tilesX, Math.floor(tile / grid.tilesX));
    bytes += 10 * cells + 5 * blocks + 32 + 6 * (margin + 8);
  }
  const held = memoryOf(Math.ceil(bytes / pageBytes));
  if (held === undefined) return undefined;
  const { buffer } = held;
  let tileInUse: Tile | undefined;
  let toolInUse: Cutter | undefined;
  const instance = new WebAssembly.Instance(module, {
    env: { memory: held },
    memory: {
      fillTile: () => tileInUse?.fill(),
      acos: Math.acos,
      atan2: Math.atan2,
      exp: Math.exp,
      log: Math.log,
    },
  });
  const kernel = instance.exports as unknown as CompiledExports;
  kernel.begin();
  setGrid(kernel, grid);
  const take = (length: number): number => {
    const from = at;
    at = (at + length + margin + 7) & ~7;
    return from;
  };
  return {
    path: {
      points: new Float64Array(buffer, kernel.addressOf(0), memory.path.points.length),
      places: new Float64Array(buffer, kernel.addressOf(1), memory.path.places.length),
      stationPiece: new Int32Array(buffer, kernel.addressOf(2), memory.path.stationPiece.length),
      stationTurn: new Float64Array(buffer, kernel.addressOf(3), memory.path.stationTurn.length),
    },
    rows: new Float32Array(buffer, kernel.addressOf(4), memory.rows.length),
    room(cells, blocks) {
      const floor = new Int32Array(buffer, take(4 * cells), cells);
      const top = new Int32Array(buffer, take(4 * cells), cells);
      const side = new Int16Array(buffer, take(2 * cells), cells);
      return {
        cells: () => ({ floor, top, side }),
        blockTop: new Int32Array(buffer, take(4 * blocks), blocks),
        blockAge: new Uint8Array(buffer, take(blocks), blocks),
        last: new Float64Array(buffer, take(32), 4),
      };
    },
    cut(tile, tool, toolIndex, piece, end, station, stations) {
      if (tile !== tileInUse) {
        tileInUse = tile;
        const { floor, top, side } = tile.room.cells();
        kernel.useAddresses(
          floor.byteOffset,
          top.byteOffset,
          side.byteOffset,
          tile.room.blockTop.byteOffset,
          tile.room.blockAge.byteOffset,
          tile.room.last.byteOffset,
        );
        setTile(kernel, tile);
      }
      if (tool !== toolInUse) {
        toolInUse = tool;
        setTool(kernel, tool);
      }
      return kernel.cutPieces(piece, end, station, stations, toolIndex);
    },
    stationAfter: kernel.stationAfter,
    rowsFound: kernel.rowsFound,
    wantSizes: kernel.wantSizes,
    depthCut: kernel.depthCut,
    widthCut: kernel.widthCut,
    forget() {
      tileInUse = undefined;
    },
  };
}
