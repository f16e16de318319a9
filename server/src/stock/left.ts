/** What is left when a stock has been cut, as it lies for the next program. */
import { laidBar, pieceLeft } from './bar-left.ts';
import { endState, laid, type StockState, type Turn } from './end-state.ts';
import type { BarStock } from './lathe-profile.ts';
import { LatheRun } from './lathe-run.ts';
import { MillStock } from './mill.ts';
import type { StockRun } from './stock-run.ts';

/**
 * How a part lies after it was cut. Mill: turned, and with its new zero from the low corner. Lathe: turned round or not, and the Z of
 * its end face. Without a place it stays where it was.
 */
export type Lay =
  | { readonly kind: 'mill'; readonly turn: Turn; readonly zero_mm: readonly number[] | undefined }
  | { readonly kind: 'lathe'; readonly turned_round: boolean; readonly face_z_mm: number | undefined };

/** What is left; a reason where that is not known. */
export function leftOf(
  stock: StockRun,
  lay: Lay,
): { state: StockState } | { bar: BarStock } | { why: string } {
  if (stock instanceof MillStock && lay.kind === 'mill')
    return { state: laid(endState(stock), lay.turn, lay.zero_mm) };
  if (!(stock instanceof LatheRun) || lay.kind !== 'lathe') return { why: 'it is for another machine' };
  const piece = pieceLeft(stock.stock, stock.bar, lay.turned_round);
  return 'why' in piece ? piece : { bar: laidBar(piece, lay.turned_round, lay.face_z_mm) };
}
