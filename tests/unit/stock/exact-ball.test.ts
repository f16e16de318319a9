/**
 * A ball's pass beside its own last one, exact by plane geometry: at `deep` mm over the tip its radius is rho = sqrt(deep (D - deep)), the
 * metal ahead spans acos(1 - step/rho) from the wall and is as wide as the step. Its volume a millimetre is the circle's segment
 * of that depth less what both passes share: twice the part of the segment further than step/2 from its middle.
 */
import assert from 'node:assert/strict';
import { cutter } from '../../../server/src/stock/cutter.ts';
import type { MoveFigures } from '../../../server/src/stock/figures.ts';
import { defaultCell } from '../../../server/src/stock/grid.ts';
import { createMillStock } from '../../../server/src/stock/mill.ts';
import type { Point } from '../../../server/src/stock/moves.ts';

interface Pass {
  readonly diameter_mm: number;
  readonly step_mm: number;
  readonly deep_mm: number;
  /** Direction of the passes, and where the first one runs across it, in cells from the middle. */
  readonly along_deg: number;
  readonly across_cells: number;
  readonly tile_cells?: number;
}

/** The pass that counts is three diameters long and begins and ends in the groove of its own kind. */
function cut(pass: Pass): MoveFigures {
  const { diameter_mm, step_mm, deep_mm, along_deg, across_cells, tile_cells } = pass;
  const size = 8 * diameter_mm;
  const low: Point = [0, 0, -diameter_mm];
  const high: Point = [size, size, 0];
  const cell_mm = defaultCell(low, high, [diameter_mm]);
  const tool = cutter({ kind: 'ball', diameter_mm });
  if ('missing' in tool) throw new Error(tool.missing);
  const stock = createMillStock({ low, high, cell_mm, tile_cells }, [tool]);
  const turn = (along_deg * Math.PI) / 180;
  const at = (u: number, v: number): Point => {
    const across = v + across_cells * cell_mm;
    return [
      size / 2 + u * Math.cos(turn) - across * Math.sin(turn),
      size / 2 + u * Math.sin(turn) + across * Math.cos(turn),
      -deep_mm,
    ];
  };
  const pieces: [from: number, to: number, step: number][] = [
    [-3, 3, 0],
    [-3, -1.5, step_mm],
    [-1.5, 1.5, step_mm],
  ];
  const figures = pieces.map(([from, to, step]) =>
    stock.move({ kind: 'feed', from: at(from * diameter_mm, step), to: at(to * diameter_mm, step) }),
  );
  return figures[2];
}

/** Shares that the widths may be off: 5 %, or at steps under half a cell 0.0165 mm on cells of 0.5. */
function check(pass: Pass, figures: MoveFigures): void {
  const { diameter_mm, step_mm, deep_mm } = pass;
  const exact = (Math.acos(1 - step_mm / Math.sqrt(deep_mm * (diameter_mm - deep_mm))) * 180) / Math.PI;
  const near = (what: string, value: number, wanted: number, by: number) =>
    assert.ok(Math.abs(value - wanted) <= by, `${what} ${value}, exact ${wanted}: ${JSON.stringify(pass)}`);
  near('engagement', figures.engagement_deg, exact, 2);
  near('mean engagement', figures.mean_engagement_deg, exact, 2);
  near('entry', figures.entry_deg, 0, 2);
  near('exit', figures.exit_deg, exact, 2);
  near('width', figures.radial_width_mm, step_mm, Math.max(0.05 * step_mm, 0.0021 * diameter_mm));
  near('depth', figures.axial_depth_mm, deep_mm, 0.01 * deep_mm + 0.004);
}

/** Area that the pass takes beside its own last one, mm2: the integral of sqrt(R^2 - v^2) - (R - deep) is closed. */
function section(diameter_mm: number, step_mm: number, deep_mm: number): number {
  const r = diameter_mm / 2;
  const under = r - deep_mm;
  const rho = Math.sqrt(r * r - under * under);
  const upTo = (v: number) => (v * Math.sqrt(r * r - v * v) + r * r * Math.asin(v / r)) / 2 - under * v;
  const shared = step_mm >= 2 * rho ? 0 : 2 * (upTo(rho) - upTo(step_mm / 2));
  return 2 * upTo(rho) - shared;
}

/** Percent that the volume of the pass may be off, at offsets of quarter cells along the grid, across it and at angles. */
function checkVolume(step: number, deep: number, within: number): void {
  const diameter_mm = 10;
  const step_mm = (step * diameter_mm) / 100;
  const deep_mm = (deep * diameter_mm) / 100;
  const exact = section(diameter_mm, step_mm, deep_mm) * 3 * diameter_mm;
  for (const along_deg of [0, 30, 45, 90]) {
    for (const across_cells of [0, 0.25, 0.5, 0.75]) {
      const pass = { diameter_mm, step_mm, deep_mm, along_deg, across_cells };
      const off = (cut(pass).removed_mm3 / exact - 1) * 100;
      assert.ok(Math.abs(off) <= within, `${off} % off: ${JSON.stringify(pass)}`);
    }
  }
}

const shares = (of: number, ...percent: number[]) => percent.map(share => (share * of) / 100);

describe('narrow side steps of a ball at the default cells', () => {
  for (const diameter_mm of [3, 6, 10, 20]) {
    for (const step_mm of shares(diameter_mm, 2, 5, 10, 20)) {
      for (const deep_mm of shares(diameter_mm, 2, 5, 10, 20, 35, 50)) {
        // the step is no narrower than the groove's half
        if (step_mm > Math.sqrt(deep_mm * (diameter_mm - deep_mm))) continue;
        it(`${step_mm} mm wide, ${deep_mm} deep, of ${diameter_mm}`, () => {
          for (const [along_deg, across_cells] of [
            [0, 0.03],
            [0, 0.2],
            [0, 0.37],
            [0, 0.49],
            [90, 0.1],
            [30, 0.1],
            [45, 0.1],
            [-77, 0.1],
          ]) {
            const pass = { diameter_mm, step_mm, deep_mm, along_deg, across_cells };
            check(pass, cut(pass));
          }
        });
      }
    }
  }

  it('1 mm wide, 2 mm deep, of 10, over the borders of small tiles', () => {
    for (const along_deg of [0, 90, 30, 45, -77, 200]) {
      const pass = { diameter_mm: 10, step_mm: 1, deep_mm: 2, along_deg, across_cells: 0.1, tile_cells: 40 };
      check(pass, cut(pass));
    }
  });
});

describe('volume of one pass of a ball at the default cells', () => {
  for (const deep of [5, 10, 20, 35]) {
    for (const step of [5, 10, 20, 50, 80]) {
      it(`side step ${step} %, ${deep} % deep: within 1 %`, () => checkVolume(step, deep, 1));
    }
    it(`side step 2 %, ${deep} % deep: within 2.2 %`, () => checkVolume(2, deep, 2.2));
  }
  for (const step of [10, 20, 50, 80]) {
    it(`side step ${step} %, half the ball deep: within 1 %`, () => checkVolume(step, 50, 1));
  }
  it('side step 5 %, half the ball deep: within 1.2 %', () => checkVolume(5, 50, 1.2));
  it('side step 2 %, half the ball deep: within 3.5 %', () => checkVolume(2, 50, 3.5));
  for (const step of [2, 5, 10, 20, 50, 80]) {
    it(`side step ${step} %, 2 % deep: within 3 %`, () => checkVolume(step, 2, 3));
  }

  // each pass lower than the last one by half the step: by the midpoint rule, 40,000 strips
  for (const step_mm of [0.2, 0.5, 1, 2]) {
    it(`down a slope across the feed, side step ${step_mm} mm of 10: within 1 %`, () => {
      for (const turned of [false, true]) {
        for (const off of [0, 0.25, 0.5, 0.75]) {
          const volume = thirdPass(step_mm, off / 2, turned);
          const share = (volume / (slopeSection(step_mm) * 30) - 1) * 100;
          assert.ok(Math.abs(share) <= 1, `${share} % off at ${off} of a cell, turned ${turned}`);
        }
      }
    });
  }
});

/** Volume of the third of three passes, the last 30 mm of it in pieces of 0.5 mm. */
function thirdPass(step_mm: number, off_mm: number, turned: boolean): number {
  const tool = cutter({ kind: 'ball', diameter_mm: 10 });
  if ('missing' in tool) throw new Error(tool.missing);
  const stock = createMillStock({ low: [0, 0, -20], high: [80, 80, 0], cell_mm: 0.5 }, [tool]);
  const at = (u: number, pass: number): Point => {
    const across = 40 + pass * step_mm + off_mm;
    return turned ? [across, u, -1 - (pass * step_mm) / 2] : [u, across, -1 - (pass * step_mm) / 2];
  };
  const feed = (from: number, to: number, pass: number) =>
    stock.move({ kind: 'feed', from: at(from, pass), to: at(to, pass) }).removed_mm3;
  feed(10, 70, 0);
  feed(10, 70, 1);
  feed(10, 25, 2);
  let volume = 0;
  for (let u = 25; u < 55; u += 0.5) volume += feed(u, u + 0.5, 2);
  assert.equal(stock.heightUnitsRemoved(), stock.heightUnitsAtStart() - stock.heightUnitsLeft());
  return volume;
}

function slopeSection(step_mm: number): number {
  const strips = 40_000;
  const wide = (12 + 2 * step_mm) / strips;
  const under = (pass: number, v: number) => {
    const off = v - pass * step_mm;
    return Math.abs(off) < 5 ? 4 - (pass * step_mm) / 2 - Math.sqrt(25 - off * off) : 0;
  };
  let area = 0;
  for (let k = 0; k < strips; k++) {
    const v = -6 + (k + 0.5) * wide;
    area += Math.max(0, Math.min(0, under(0, v), under(1, v)) - under(2, v)) * wide;
  }
  return area;
}
