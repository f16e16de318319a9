/** What the program itself writes into one row of the offset table (G10); NaN where it writes nothing. Lengths mm. */
export interface ToolOffset {
  /** Radius of the cutter or of the nose. */
  readonly radius_mm: number;
  /** Radius wear that is added to it. */
  readonly wear_mm: number;
  /** Tip direction of a lathe tool, in the numbering of compensation/nose.ts. */
  readonly tip: number;
}

const EMPTY: ToolOffset = { radius_mm: Number.NaN, wear_mm: Number.NaN, tip: Number.NaN };

/** Rows that are kept: as many as large controls have. */
const MOST_ROWS = 1000;

/** Rows of the offset table that the program has written: never changed, replaced. Equal keys are equal tables. */
export class ToolOffsets {
  private known_key: string | undefined;

  constructor(private readonly rows: ReadonlyMap<number, ToolOffset> = new Map()) {}

  get key(): string {
    this.known_key ??= [...this.rows]
      .sort(([a], [b]) => a - b)
      .map(([number, row]) => `${number}:${row.radius_mm},${row.wear_mm},${row.tip}`)
      .join(' ');
    return this.known_key;
  }

  get(number: number): ToolOffset {
    return this.rows.get(number) ?? EMPTY;
  }

  with(number: number, change: Partial<ToolOffset>): ToolOffsets {
    if (this.rows.size >= MOST_ROWS && !this.rows.has(number)) return this;
    return new ToolOffsets(new Map(this.rows).set(number, { ...this.get(number), ...change }));
  }
}
