/** A value that stands far outside its neighbours while a tenth (or less) of it stands between them. */
export interface Outlier {
  line: number;
  value: number;
  before: number;
  after: number;
  /** 10, 100 or 1000. */
  factor: number;
}

/** What is known of the values along one axis. */
export interface Axis {
  count: number;
  /** Greatest and second greatest distance from zero among different values. */
  most: number;
  second: number;
  outliers: readonly Outlier[];
}

const KEPT = 20;
const FACTORS = [10, 100, 1000];

/** Watches the values along an axis as they change. */
export class OutlierWatch {
  private before = Number.NaN;
  private value = Number.NaN;
  private line = -1;
  private count = 0;
  private most = 0;
  private second = 0;
  private readonly outliers: Outlier[] = [];

  /** The next value that differs from the last. */
  see(value: number, line: number): void {
    this.judge(value);
    this.before = this.value;
    this.value = value;
    this.line = line;
    const size = Math.abs(value);
    this.count++;
    if (size > this.most) {
      this.second = this.most;
      this.most = size;
    } else if (size > this.second && size < this.most) this.second = size;
  }

  done(): Axis {
    const { count, most, second, outliers } = this;
    return { count, most, second, outliers };
  }

  private judge(after: number): void {
    const { before, value } = this;
    const size = Math.abs(value);
    if (!(size >= 5 * Math.max(Math.abs(before), Math.abs(after))) || before === after) return;
    if (this.outliers.length >= KEPT) return;
    const low = Math.min(before, after);
    const high = Math.max(before, after);
    for (const factor of FACTORS) {
      const meant = value / factor;
      if (meant >= low && meant <= high) {
        this.outliers.push({ line: this.line, value, before, after, factor });
        return;
      }
    }
  }
}
