import type { Stock } from '../../setup/index.ts';
import type { KeptState, StockState } from '../../stock/end-state.ts';

export type FromStock = Extract<Stock, { shape: 'from' }>;

/** What another program leaves: cell by cell, or by the name under which the worker that cut it keeps it. */
export type Left = { state: StockState } | { kept: KeptState } | { why: string };

/** The programs that a stock starts from. */
export interface Earlier {
  /** Why a program or its sheet cannot be read, in words; undefined when it can, or is still being read. */
  unread(name: string): string | undefined;
  /** What a program leaves, turned as the sheet says, with `zero_mm` from its low corner as the new zero. */
  left(stock: FromStock, zero_mm: readonly number[] | undefined): Left;
}
