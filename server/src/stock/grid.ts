/** Where the cells of the height field lie. */

/** Heights and walls to start from; the shape is that of `StockState`. */
export interface StartState {
  readonly columns: number;
  readonly floor: Int32Array;
  readonly top: Int32Array;
  readonly side: Int16Array;
}

export interface StockBlock {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
  /** A round bar that stands on z: only what lies inside this circle is metal. */
  readonly round?: {
    readonly x_mm: number;
    readonly y_mm: number;
    readonly radius_mm: number;
    readonly bore_mm?: number;
  };
  /** What another program left, cell by cell; see `blockOf`. */
  readonly state?: StartState;
  /** Name of such a state where a worker keeps it; it has to be put in before the block is cut. */
  readonly kept?: string;
  /** Side of a cell; see `defaultCell`. Adjusted so that whole cells fill the block exactly. */
  readonly cell_mm: number;
  /** Cells along the side of a tile. */
  readonly tile_cells?: number;
}

export interface Grid {
  readonly block: StockBlock;
  readonly columns: number;
  readonly rows: number;
  /** Cell sizes along x and y; they differ a little so that whole cells fill the block. */
  readonly cx: number;
  readonly cy: number;
  readonly tile: number;
  readonly tilesX: number;
  readonly tilesY: number;
}

export const mostCells = 4_000_000;

/**
 * Cell size for a stock and its tools: a twentieth of the smallest diameter that mills, never so small that the block takes more than
 * four million cells, never under 0.02 mm. Walls are kept finer than a cell, so this need not be smaller for narrow passes.
 */
export function defaultCell(
  low: readonly number[],
  high: readonly number[],
  diameters_mm: readonly number[],
): number {
  const area = Math.max(1e-6, (high[0] - low[0]) * (high[1] - low[1]));
  let smallest = Number.POSITIVE_INFINITY;
  for (const diameter of diameters_mm) if (diameter > 0) smallest = Math.min(smallest, diameter);
  const wanted = Number.isFinite(smallest) ? smallest / 20 : Math.sqrt(area) / 500;
  return Math.max(0.02, Math.sqrt(area / mostCells), wanted);
}

/** Lays the cells. Throws RangeError on a block without size or with non-finite numbers. */
export function layGrid(block: StockBlock): Grid {
  const width = block.high[0] - block.low[0];
  const depth = block.high[1] - block.low[1];
  const height = block.high[2] - block.low[2];
  if (
    !(width > 0 && depth > 0 && height > 0 && block.cell_mm > 0) ||
    !Number.isFinite(width + depth + height)
  ) {
    throw new RangeError('the stock needs a size over 0 on every axis and a cell over 0');
  }
  const cell = Math.max(block.cell_mm, Math.sqrt((width * depth) / (2 * mostCells)));
  const columns = Math.max(2, Math.round(width / cell));
  const rows = Math.max(2, Math.round(depth / cell));
  const tile = Math.max(16, block.tile_cells ?? 192);
  return {
    block,
    columns,
    rows,
    cx: width / columns,
    cy: depth / rows,
    tile,
    tilesX: Math.ceil(columns / tile),
    tilesY: Math.ceil(rows / tile),
  };
}
