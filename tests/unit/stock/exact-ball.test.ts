/**
 * A ball's pass beside its own last one, exact by plane geometry: at `deep` mm over the tip its radius is rho = sqrt(deep (D - deep)), the
 * metal ahead spans acos(1 - step/rho) from the wall and is as wide as the step.
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
