import * as c from '../../../server/src/cutting/index.ts';
import { known, midpoint, near, present } from './slow.ts';

const area = (d: number, bore = 0) => (Math.PI * (d ** 4 - bore ** 4)) / 64;

/** Tip deflection by integrating curvature twice, plain steps. */
function slowTip(
  force: number,
  modulus: number,
  load: number,
  sections: readonly (readonly [number, number, number])[],
): number {
  const length = sections.reduce((sum, [l]) => sum + l, 0);
  const inertia = (x: number) => {
    let end = 0;
    for (const [l, d, bore] of sections) {
      end += l;
      if (x <= end) return area(d, bore);
    }
    throw new Error('beyond the bar');
  };
  return midpoint(x => (force * (x - load) * x) / (modulus * inertia(x)), load, length, 200_000);
}

describe('stiffness against plain integration', () => {
  for (const [name, load, sections] of [
    ['one diameter', 0, [[60, 12, 0]]],
    [
      'flutes and shank',
      3,
      [
        [22, 8, 0],
        [18, 10, 0],
      ],
    ],
    [
      'neck and thick shank',
      1.5,
      [
        [5, 3.2, 0],
        [15, 3.8, 0],
        [20, 6, 0],
      ],
    ],
    [
      'coolant hole, load behind the flutes',
      25,
      [
        [20, 12, 2],
        [60, 16, 3],
      ],
    ],
  ] as const) {
    it(`stepped tool: ${name}`, () => {
      const given = {
        force_n: 200,
        elastic_modulus_n_mm2: 600_000,
        load_from_tip_mm: load,
        sections: sections.map(([length_mm, diameter_mm, bore_mm]) => ({ length_mm, diameter_mm, bore_mm })),
      };
      near(known(c.steppedDeflection(given)), slowTip(200, 600_000, load, sections), 1e-4);
    });
  }

  /** Beam on supports by finite differences of the virtual work: deflection under the load from unit-load integrals. */
  function underLoad(kind: 'chuck' | 'centre' | 'centres', a: number, length: number): number {
    const b = length - a;
    // moment of a unit load at a, with the redundant end force of the propped beam from zero end deflection
    const end = kind === 'centre' ? (a * a * (3 * length - a)) / (2 * length ** 3) : 0;
    const moment = (x: number) => {
      if (kind === 'centres') return x < a ? (b * x) / length : (a * (length - x)) / length;
      return (x < a ? a - x : 0) - end * (length - x);
    };
    return midpoint(x => moment(x) ** 2, 0, length, 100_000);
  }
  for (const at of [20, 60, 110, 149]) {
    it(`slender work, load at ${at} of 150`, () => {
      const work = {
        force_n: 400,
        length_mm: 150,
        diameter_mm: 25,
        elastic_modulus_n_mm2: 210_000,
        load_at_mm: at,
      };
      const scale = 400 / (210_000 * area(25));
      near(known(c.chuckedDeflection(work)), scale * underLoad('chuck', at, 150), 1e-4);
      near(known(c.chuckAndCentreDeflection(work)), scale * underLoad('centre', at, 150), 1e-3);
      near(known(c.betweenCentresDeflection(work)), scale * underLoad('centres', at, 150), 1e-4);
    });
  }

  it('frequency of a stepped bar comes down to the plain bar, and to the first root of cos b cosh b + 1', () => {
    let [low, high] = [1.8, 1.95];
    for (let i = 0; i < 60; i++) {
      const b = (low + high) / 2;
      if (Math.cos(b) * Math.cosh(b) + 1 > 0) low = b;
      else high = b;
    }
    near(c.CANTILEVER_EIGENVALUE_SQUARED, low * low, 1e-8);
    const material = { elastic_modulus_n_mm2: 600_000, density_kg_m3: 14_500 };
    const plain = known(c.barNaturalFrequency({ diameter_mm: 12, length_mm: 60, ...material }));
    const cut = [
      { length_mm: 13, diameter_mm: 12 },
      { length_mm: 47, diameter_mm: 12 },
    ];
    near(known(c.steppedNaturalFrequency({ sections: cut, ...material })), plain, 1e-4);
  });

  it('frequency of a stepped tool equals that of 80 lumps on influence coefficients', () => {
    const section = (x: number) => (x < 22 ? 8 : 12);
    const count = 80;
    const place = (i: number) => (50 * (i + 0.5)) / count;
    const mass = (i: number) => ((Math.PI * section(place(i)) ** 2) / 4) * (50 / count) * 14_500e-9;
    const influence = Array.from({ length: count }, (_, i) =>
      Array.from({ length: count }, (_, k) => {
        const [a, b] = [place(i), place(k)];
        return midpoint(s => ((s - a) * (s - b)) / (600_000 * area(section(s))), Math.max(a, b), 50, 400);
      }),
    );
    let shape = Array.from({ length: count }, (_, i) => (1 - i / count) ** 2);
    let size = 1;
    for (let turn = 0; turn < 30; turn++) {
      const next = influence.map(row => row.reduce((sum, f, k) => sum + f * mass(k) * shape[k]!, 0));
      size = next[0]! / shape[0]!;
      shape = next.map(y => y / next[0]!);
    }
    const sections = [
      { length_mm: 22, diameter_mm: 8 },
      { length_mm: 28, diameter_mm: 12 },
    ];
    const material = { elastic_modulus_n_mm2: 600_000, density_kg_m3: 14_500 };
    const frequency = known(c.steppedNaturalFrequency({ sections, ...material }));
    near(frequency, Math.sqrt(1000 / size) / (2 * Math.PI), 2e-3);
  });
});

describe('chatter against searching the response', () => {
  const mode = {
    natural_frequency_hz: 800,
    stiffness_n_um: 20,
    damping_ratio: 0.05,
    specific_force_n_mm2: 2000,
  };
  /** Real and imaginary part of the tip's flexibility, mm/N. */
  const tip = (f: number) => {
    const r = f / 800;
    const size = (1 - r * r) ** 2 + (2 * 0.05 * r) ** 2;
    return { re: (1 - r * r) / size / 20_000, im: (-2 * 0.05 * r) / size / 20_000 };
  };

  it('critical width and its tone are the lowest real part', () => {
    let best = { re: 0, f: 0 };
    for (let f = 800; f < 1000; f += 0.01) if (tip(f).re < best.re) best = { re: tip(f).re, f };
    near(known(c.criticalChipWidth(mode)), -1 / (2 * 2000 * best.re), 1e-6);
    near(known(c.chatterFrequency(mode)), best.f, 1e-4);
  });

  for (const rpm of [1500, 3000, 6000, 8000, 9000, 14_000, 16_500, 30_000]) {
    it(`limit at ${rpm} rev/min with 3 teeth: every frequency tried`, () => {
      // characteristic equation 1 + b Ks (1 - e^(-i w T)) G = 0: for each f the depth, where the phase fits
      const period = 60 / (rpm * 3);
      let least = Infinity;
      let before = Number.NaN;
      for (let f = 800.0005; f < 4000; f += 0.001) {
        const { re, im } = tip(f);
        if (re >= 0) continue;
        const wt = 2 * Math.PI * f * period;
        // imaginary part of (1 - e^(-i wt)) G must vanish
        const phase = (1 - Math.cos(wt)) * im + Math.sin(wt) * re;
        const real = (1 - Math.cos(wt)) * re - Math.sin(wt) * im;
        if (before * phase < 0 && real < 0) least = Math.min(least, -1 / (2000 * real));
        before = phase;
      }
      const limit = present(c.stabilityLimit({ ...mode, teeth: 3, spindle_rpm: rpm }));
      near(limit.depth_mm, least, 5e-3);
    });
  }

  it('damping from the half-power points of that response', () => {
    const height = (f: number) => Math.hypot(tip(f).re, tip(f).im);
    let peak = 700;
    for (let f = 700; f < 900; f += 0.01) if (height(f) > height(peak)) peak = f;
    const points: number[] = [];
    for (let f = 700; f < 900; f += 0.01) {
      if (height(f) > height(peak) / Math.SQRT2 !== height(f + 0.01) > height(peak) / Math.SQRT2)
        points.push(f);
    }
    const zeta = known(c.dampingFromHalfPower({ lower_hz: points[0], peak_hz: peak, upper_hz: points[1] }));
    near(zeta, 0.05, 1e-2);
  });
});
