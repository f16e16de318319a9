import type { Grid } from './grid.ts';
import type { Chain } from './moves.ts';
import type { Tile } from './tile.ts';
import type { TileLog } from './tile-log.ts';

/** Lists in `into`, row by row, the tiles of a grid that a path comes to with a tool of `widest_mm` about its axis; their count. */
export function tilesNear(
  chain: Chain,
  widest_mm: number,
  grid: Grid,
  logs: readonly TileLog[],
  into: TileLog[],
): number {
  let count = 0;
  const margin = widest_mm + 2 * Math.max(grid.cx, grid.cy);
  const p = chain.points;
  let x0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let k = 0; k <= chain.pieces; k++) {
    x0 = Math.min(x0, p[3 * k]);
    x1 = Math.max(x1, p[3 * k]);
    y0 = Math.min(y0, p[3 * k + 1]);
    y1 = Math.max(y1, p[3 * k + 1]);
  }
  const { low } = grid.block;
  const spanX = grid.tile * grid.cx;
  const spanY = grid.tile * grid.cy;
  const tx0 = Math.max(0, Math.floor((x0 - margin - low[0]) / spanX));
  const tx1 = Math.min(grid.tilesX - 1, Math.floor((x1 + margin - low[0]) / spanX));
  const ty0 = Math.max(0, Math.floor((y0 - margin - low[1]) / spanY));
  const ty1 = Math.min(grid.tilesY - 1, Math.floor((y1 + margin - low[1]) / spanY));
  for (let ty = ty0; ty <= ty1; ty++) {
    for (let tx = tx0; tx <= tx1; tx++) {
      const log = logs[ty * grid.tilesX + tx];
      if (chain.pieces > 1 || tx0 === tx1 || ty0 === ty1 || nearTile(log.tile, p, margin))
        into[count++] = log;
    }
  }
  return count;
}

/** Does the line come within `margin` of the tile, measured across the line. */
function nearTile(tile: Tile, p: Float64Array, margin: number): boolean {
  const dx = p[3] - p[0];
  const dy = p[4] - p[1];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return true;
  const mx = (tile.xLow + tile.xHigh) / 2 - p[0];
  const my = (tile.yLow + tile.yHigh) / 2 - p[1];
  const across = Math.abs(mx * dy - my * dx) / length;
  const half =
    (Math.abs(dx) * (tile.yHigh - tile.yLow) + Math.abs(dy) * (tile.xHigh - tile.xLow)) / (2 * length);
  return across <= half + margin;
}
