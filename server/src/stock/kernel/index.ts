/** What the kernel offers to the outside, plain or compiled. */
import { nextStation } from './cut.ts';
import { rowCount } from './station.ts';
import { fillTurns } from './turns.ts';

export { cutPieces } from './cut.ts';
export { setGrid, setTile } from './field.ts';
export { depthCut, wantSizes, widthCut } from './sizes.ts';
export { addBody, setTool } from './tool.ts';

/** The next station after `cutPieces`. */
export function stationAfter(): i32 {
  return nextStation;
}

/** Rows that `cutPieces` found. */
export function rowsFound(): i32 {
  return rowCount;
}

/** Makes the kernel ready; once, before anything else. */
export function begin(): void {
  fillTurns();
}
