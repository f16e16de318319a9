/** What a program leaves, to keep or to start the next program from. */
import type { StockBlock } from './grid.ts';
import { layGrid } from './grid.ts';
import type { MillStock } from './mill.ts';
import { heightUnits, sideUnits, type Tile } from './tile.ts';

/** Plain data; the buffers may be transferred. Rows run along x, low y first. */
export interface StockState {
  readonly block: StockBlock;
  readonly columns: number;
  readonly rows: number;
  readonly floor: Int32Array;
  readonly top: Int32Array;
  readonly side: Int16Array;
  /** What the state cannot hold, in words. */
  readonly not_modelled: readonly string[];
}

/** A state that a worker keeps under a name: all but the cells. */
export interface KeptState extends Omit<StockState, 'floor' | 'top' | 'side'> {
  readonly key: string;
}

export type Turn = 'none' | 'flip-x' | 'flip-y' | 'z-90' | 'z-180' | 'z-270';

/** Copies what is left of the stock. */
export function endState(stock: MillStock): StockState {
  const { grid } = stock;
  const cells = grid.columns * grid.rows;
  const { state: _before, kept: _name, ...block } = grid.block;
  const state = {
    block,
    columns: grid.columns,
    rows: grid.rows,
    floor: new Int32Array(cells),
    top: new Int32Array(cells),
    side: new Int16Array(cells),
    not_modelled: [],
  };
  const tiles = stock.tiles();
  for (let at = 0; at < tiles.length; at++) {
    copyOut(tiles[at], (at % grid.tilesX) * grid.tile, Math.floor(at / grid.tilesX) * grid.tile, state);
  }
  return state;
}

function copyOut(tile: Tile, i0: number, j0: number, into: StockState): void {
  const high = Math.round(tile.grid.block.high[2] * heightUnits);
  for (let j = 0; j < tile.h; j++) {
    const from = j * tile.stride;
    const to = (j0 + j) * into.columns + i0;
    if (tile.floor === undefined || tile.top === undefined || tile.side === undefined) {
      into.floor.fill(high, to, to + tile.w);
      into.top.fill(high, to, to + tile.w);
      continue;
    }
    into.floor.set(tile.floor.subarray(from, from + tile.w), to);
    into.top.set(tile.top.subarray(from, from + tile.w), to);
    into.side.set(tile.side.subarray(from, from + tile.w), to);
  }
}

/**
 * The state turned over or round, in its own box. A height field holds no undercuts: after a flip, what was
 * cut from the other side is solid again unless it went through; that is said in `not_modelled`.
 */
export function turned(state: StockState, turn: Turn): StockState {
  if (turn === 'none') return state;
  const { low, high } = state.block;
  const quarter = turn === 'z-90' || turn === 'z-270';
  const columns = quarter ? state.rows : state.columns;
  const rows = quarter ? state.columns : state.rows;
  const cells = columns * rows;
  const flip = turn === 'flip-x' || turn === 'flip-y';
  const bottom = Math.round(low[2] * heightUnits);
  const lid = Math.round(high[2] * heightUnits);
  const out = { floor: new Int32Array(cells), top: new Int32Array(cells), side: new Int16Array(cells) };
  let hidden = false;
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const from = sourceCell(state, turn, i, j, columns, rows);
      const to = j * columns + i;
      const top = state.top[from];
      const floor = flip ? Math.min(state.floor[from], top) : state.floor[from];
      if (!flip) {
        out.floor[to] = floor;
        out.top[to] = top;
        out.side[to] = state.side[from];
        continue;
      }
      if (top < lid || (floor < lid && floor > bottom)) hidden = true;
      const open = floor <= bottom;
      out.floor[to] = open ? bottom : lid;
      out.top[to] = top <= bottom ? bottom : lid;
      out.side[to] = open && top > bottom ? state.side[from] : 0;
    }
  }
  const size: [number, number] = quarter
    ? [high[1] - low[1], high[0] - low[0]]
    : [high[0] - low[0], high[1] - low[1]];
  const { round: _round, ...block } = state.block;
  return {
    block: { ...block, low, high: [low[0] + size[0], low[1] + size[1], high[2]] },
    columns,
    rows,
    ...out,
    not_modelled: hidden
      ? [...state.not_modelled, 'pockets of the side that now lies below count as solid']
      : state.not_modelled,
  };
}

function sourceCell(
  state: StockState,
  turn: Turn,
  i: number,
  j: number,
  columns: number,
  rows: number,
): number {
  switch (turn) {
    case 'flip-x':
      return (rows - 1 - j) * state.columns + i;
    case 'flip-y':
      return j * state.columns + (columns - 1 - i);
    case 'z-180':
      return (rows - 1 - j) * state.columns + (columns - 1 - i);
    case 'z-90':
      return (columns - 1 - i) * state.columns + j;
    case 'z-270':
      return i * state.columns + (rows - 1 - j);
    default:
      return j * state.columns + i;
  }
}

/** The same state with its low corner at `low`: where it lies in the next set-up. */
export function placed(state: StockState, low: readonly [number, number, number]): StockState {
  const by = low.map((value, axis) => value - state.block.low[axis]);
  const lift = Math.round(by[2] * heightUnits);
  const high = state.block.high.map((value, axis) => value + by[axis]) as [number, number, number];
  const { round: _round, ...block } = state.block;
  return {
    ...state,
    block: { ...block, low, high },
    floor: state.floor.map(height => height + lift),
    top: state.top.map(height => height + lift),
    side: state.side.slice(),
  };
}

/** The state as it lies in the next set-up: turned, then with `zero_mm` from its low corner as zero; without that it stays. */
export function laid(state: StockState, turn: Turn, zero_mm: readonly number[] | undefined): StockState {
  const lying = turned(state, turn);
  return zero_mm ? placed(lying, [-zero_mm[0], -zero_mm[1], -zero_mm[2]]) : lying;
}

/** The block of a state that a worker keeps; the worker puts the cells in. */
export function blockOfKept({ block, columns, key }: KeptState): StockBlock {
  return { ...block, cell_mm: (block.high[0] - block.low[0]) / columns, kept: key };
}

/** A block whose uncut stock is `state`; give it to `createMillStock`. */
export function blockOf(state: StockState, tile_cells?: number): StockBlock {
  const width = state.block.high[0] - state.block.low[0];
  const block = {
    ...state.block,
    ...(tile_cells === undefined ? {} : { tile_cells }),
    cell_mm: width / state.columns,
    state,
  };
  const grid = layGrid(block);
  if (grid.columns !== state.columns || grid.rows !== state.rows)
    throw new RangeError('the state does not fit its own block');
  return block;
}

/** Bytes for storing: a state as one buffer and back. */
export function packState(state: StockState): Uint8Array {
  const head = new TextEncoder().encode(
    JSON.stringify({
      block: state.block,
      columns: state.columns,
      rows: state.rows,
      not_modelled: state.not_modelled,
    }),
  );
  const cells = state.columns * state.rows;
  const out = new Uint8Array(4 + head.length + cells * 10);
  new DataView(out.buffer).setUint32(0, head.length, true);
  out.set(head, 4);
  let at = 4 + head.length;
  for (const part of [state.floor, state.top, state.side]) {
    out.set(new Uint8Array(part.buffer, part.byteOffset, part.byteLength), at);
    at += part.byteLength;
  }
  return out;
}

/** Reads what `packState` wrote; undefined when the bytes are not such a state. */
export function unpackState(bytes: Uint8Array): StockState | undefined {
  if (bytes.length < 4) return undefined;
  const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true);
  if (length > bytes.length - 4) return undefined;
  let head: Pick<StockState, 'block' | 'columns' | 'rows' | 'not_modelled'>;
  try {
    head = JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length)));
  } catch (problem) {
    if (problem instanceof SyntaxError) return undefined;
    throw problem;
  }
  const cells = head.columns * head.rows;
  if (!(cells >= 0) || bytes.length !== 4 + length + cells * 10) return undefined;
  const at = bytes.byteOffset + 4 + length;
  const copy = (from: number, size: number): ArrayBuffer =>
    bytes.buffer.slice(from, from + size) as ArrayBuffer;
  const side = new Int16Array(copy(at + 8 * cells, 2 * cells));
  for (let k = 0; k < cells; k++) if (side[k] > sideUnits || side[k] < -sideUnits) return undefined;
  return {
    ...head,
    floor: new Int32Array(copy(at, 4 * cells)),
    top: new Int32Array(copy(at + 4 * cells, 4 * cells)),
    side,
  };
}
