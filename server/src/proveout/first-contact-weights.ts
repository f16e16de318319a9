/** What each reason takes off the first-contact override, in percent points: common practice, no source. A shop may change them. */
export interface FirstContactWeights {
  readonly window: {
    readonly proven: number;
    readonly maker: number;
    readonly handbook: number;
    readonly none: number;
  };
  readonly tool: { readonly confirmed: number; readonly comment: number; readonly unknown: number };
  /** Stickout over diameter: up to 4, up to 5, over 5. Up to 3 takes nothing off. */
  readonly stickout: { readonly to4: number; readonly to5: number; readonly over5: number };
  readonly grip: {
    readonly firm: number;
    readonly fair: number;
    readonly weak: number;
    readonly unknown: number;
  };
  readonly wear: {
    readonly new: number;
    readonly used: number;
    readonly dull: number;
    readonly unknown: number;
  };
  readonly material: number;
  readonly entry: { readonly partial: number; readonly full: number; readonly 'full-and-deep': number };
  readonly load: number;
  readonly stock_assumed: number;
}

export const firstContactWeights: FirstContactWeights = {
  window: { proven: 0, maker: 3, handbook: 5, none: 10 },
  tool: { confirmed: 0, comment: 4, unknown: 20 },
  stickout: { to4: 3, to5: 6, over5: 10 },
  grip: { firm: 0, fair: 4, weak: 10, unknown: 4 },
  wear: { new: 0, used: 3, dull: 8, unknown: 2 },
  material: 4,
  entry: { partial: 0, full: 5, 'full-and-deep': 8 },
  load: 5,
  stock_assumed: 3,
};

/** The band that first contact starts in, percent of the programmed feed. */
export const firstContactBand = { low: 50, high: 70 } as const;
