/** Abscissas and weights of 16-point Gauss-Legendre integration on -1..1 (one half; the rule is symmetric). */
const NODES = [
  [0.09501250983763744, 0.1894506104550685],
  [0.2816035507792589, 0.1826034150449236],
  [0.45801677765722737, 0.16915651939500254],
  [0.6178762444026438, 0.14959598881657674],
  [0.755404408355003, 0.12462897125553388],
  [0.8656312023878318, 0.09515851168249279],
  [0.9445750230732326, 0.062253523938647894],
  [0.9894009349916499, 0.027152459411754096],
] as const;

/** Integral by 16-point Gauss-Legendre in equal panels. */
export function integrate(f: (x: number) => number, from: number, to: number, panels = 1): number {
  const half = (to - from) / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (const [node, weight] of NODES) sum += weight * (f(middle - node * half) + f(middle + node * half));
  }
  return sum * half;
}

/**
 * Integral of f over an interval at whose ends f may rise like a fraction of a power (sine to the 0.75 at 0 and 180
 * degrees): the substitution flattens both ends so that few points suffice.
 */
export function integrateSoftEnds(f: (x: number) => number, from: number, to: number, panels = 2): number {
  const span = to - from;
  return (
    integrate(
      t => {
        const slope = 30 * t * t * (1 - t) * (1 - t);
        return slope * f(from + span * t * t * t * (10 - 15 * t + 6 * t * t));
      },
      0,
      1,
      panels,
    ) * span
  );
}

/** Root of f between two ends of opposite sign, by halving; the ends are returned nearest when there is no change. */
export function bisect(f: (x: number) => number, low: number, high: number, turns = 100): number {
  let a = low;
  let b = high;
  const rising = f(b) >= f(a);
  for (let turn = 0; turn < turns; turn++) {
    const m = (a + b) / 2;
    if (f(m) >= 0 === rising) b = m;
    else a = m;
  }
  return (a + b) / 2;
}

/** Place of the least value of a function with one valley between two ends, by golden section. */
export function goldenMinimum(f: (x: number) => number, low: number, high: number, turns = 80): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let a = low;
  let b = high;
  let left = b - ratio * (b - a);
  let right = a + ratio * (b - a);
  let atLeft = f(left);
  let atRight = f(right);
  for (let turn = 0; turn < turns; turn++) {
    if (atLeft <= atRight) {
      b = right;
      right = left;
      atRight = atLeft;
      left = b - ratio * (b - a);
      atLeft = f(left);
    } else {
      a = left;
      left = right;
      atLeft = atRight;
      right = a + ratio * (b - a);
      atRight = f(right);
    }
  }
  return (a + b) / 2;
}
