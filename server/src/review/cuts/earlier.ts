import type { Stock } from '../../setup/index.ts';
import type { KeptState, StockState } from '../../stock/end-state.ts';
import type { BarStock } from '../../stock/lathe-profile.ts';
import type { MachineKind } from '../working.ts';

export type FromStock = Extract<Stock, { shape: 'from' }>;

/** A stock that starts from another program, as a program on a mill or a lathe asks for it. */
export interface Asked {
  readonly stock: FromStock;
  readonly kind: MachineKind;
  /** Mill: the new zero from the low corner. */
  readonly zero_mm?: readonly number[] | undefined;
}

/** Why a stock cannot be had; `at` where the sheet itself is to be corrected. */
export interface NotLeft {
  readonly why: string;
  readonly at?: 'from' | 'turn' | 'face_mm';
}

/** How sure it is what a program leaves, and what of it is not followed, in words. */
export interface LeftNotes {
  readonly unsure?: string;
  readonly left_out?: readonly string[];
}

/** What another program leaves: cell by cell, by the name under which the worker that cut it keeps it, or as a bar. */
export type Left =
  | (({ readonly state: StockState } | { readonly kept: KeptState } | { readonly bar: BarStock }) & LeftNotes)
  | NotLeft;

/** The programs that a stock starts from. */
export interface Earlier {
  /** What is wrong where a sheet names a program; undefined when nothing is, or it is still being read. */
  wrong(asked: Asked): NotLeft | undefined;
  /** What a program leaves, turned and placed as the sheet says. */
  left(asked: Asked): Left;
}
