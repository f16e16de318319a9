import assert from 'node:assert/strict';
import * as c from '../../../server/src/cutting/index.ts';
import { known, midpoint, near, present, rad } from './slow.ts';

/** Share of the tool's circle that lies in stock, counted in small angles. */
function countedArc(inStock: (x: number, y: number) => boolean, radius: number, steps = 36_000): number {
  let inside = 0;
  for (let i = 0; i < steps; i++) {
    const phi = (2 * Math.PI * (i + 0.5)) / steps;
    if (inStock(radius * Math.cos(phi), radius * Math.sin(phi))) inside++;
  }
  return (360 * inside) / steps;
}

describe('milling against counting and integration', () => {
  for (const width of [0.02, 0.5, 1, 3, 5, 5.001, 7.5, 9.9, 10]) {
    it(`engagement, thickness and approach at ae ${width} of D 10`, () => {
      // feed along +x, stock from y = -5 up to -5 + width, ahead of the tool
      const arc = countedArc((x, y) => x > 0 && y < -5 + width, 5);
      near(known(c.engagementAngle({ radial_width_mm: width, diameter_mm: 10 })), arc, 2e-3);
      const phi = Math.acos(1 - (2 * width) / 10);
      const mean = midpoint(p => 0.1 * Math.sin(p), 0, phi) / phi;
      const cut = { chip_load_mm: 0.1, radial_width_mm: width, diameter_mm: 10 };
      near(known(c.meanChipThickness(cut)), mean, 1e-6);
      let greatest = 0;
      for (let i = 0; i <= 10_000; i++) greatest = Math.max(greatest, 0.1 * Math.sin((phi * i) / 10_000));
      near(known(c.greatestChipThickness(cut)), greatest, 1e-6);
    });
  }

  for (const [from, to, hand] of [
    [-20, 40, 'clockwise'],
    [-50, 50, 'clockwise'],
    [-60, 10, 'counter-clockwise'],
    [20, 49, 'clockwise'],
  ] as const) {
    it(`face mill D 100 over stock ${from} to ${to}, ${hand}`, () => {
      const arc = present(
        c.faceMillArc({ diameter_mm: 100, stock_from_mm: from, stock_to_mm: to, spindle: hand }),
      );
      near(
        arc.exit_deg - arc.entry_deg,
        countedArc((x, y) => x > 0 && y > from && y < to, 50),
        2e-3,
      );
      const span = rad(arc.exit_deg) - rad(arc.entry_deg);
      const mean =
        midpoint(p => 0.2 * Math.sin(rad(45)) * Math.sin(p), rad(arc.entry_deg), rad(arc.exit_deg)) / span;
      near(known(c.meanChipThicknessOverArc({ chip_load_mm: 0.2, edge_angle_deg: 45, ...arc })), mean, 1e-6);
    });
  }

  for (const [rho, r, wall, side] of [
    [8, 8, 15, 'inside'],
    [20, 5, 24, 'inside'],
    [30, 6, 26, 'outside'],
    [1e4, 5, 1e4 + 4, 'inside'],
    [3, 5, 7.9, 'inside'],
  ] as const) {
    it(`arc: centre path ${rho}, tool ${r}, old wall ${wall}, ${side}`, () => {
      // tool centre at (rho, 0) moving along +y; the leading half of its circle counts
      const inStock = (x: number, y: number) => {
        const far = Math.hypot(rho + x, y);
        return y > 0 && (side === 'inside' ? far > wall : far < wall);
      };
      const angle = known(
        c.engagementOnArc({ path_radius_mm: rho, tool_radius_mm: r, old_wall_radius_mm: wall, side }),
      );
      near(angle, countedArc(inStock, r, 200_000), 3e-3);
    });
  }

  it('width on an arc stands for the area between the walls', () => {
    const inside = known(
      c.effectiveWidthOnArc({
        before_diameter_mm: 30,
        after_diameter_mm: 32,
        diameter_mm: 16,
        side: 'inside',
      }),
    );
    near(inside * Math.PI * 16, (Math.PI / 4) * (32 ** 2 - 30 ** 2), 1e-12);
    const outside = known(
      c.effectiveWidthOnArc({
        before_diameter_mm: 32,
        after_diameter_mm: 30,
        diameter_mm: 16,
        side: 'outside',
      }),
    );
    near(outside * Math.PI * 46, (Math.PI / 4) * (32 ** 2 - 30 ** 2), 1e-12);
  });

  it('trochoid: 50.5 and 55.1 degrees, found by brute force for a 12 mm slot, 8 mm tool, step 0.6', () => {
    const { foremost_deg, greatest_deg } = present(
      c.trochoidEngagement({ slot_width_mm: 12, diameter_mm: 8, step_mm: 0.6 }),
    );
    near(foremost_deg, 50.5, 3e-3);
    near(greatest_deg, 55.1, 3e-3);
  });

  for (const depth of [1e-6, 0.001, 0.3, 1.5, 5.9, 6, 9]) {
    it(`round edge r 6, depth ${depth}: mean thickness by area over edge length`, () => {
      const cut = { feed_mm: 0.2, axial_depth_mm: depth, corner_radius_mm: 6 };
      const reach = depth >= 6 ? Math.PI / 2 : 2 * Math.asin(Math.sqrt(depth / 12));
      const edge = 6 * reach + Math.max(0, depth - 6);
      const straight = Math.max(0, depth - 6) * 0.2;
      const area = midpoint(k => 0.2 * Math.sin(k) * 6, 0, reach) + straight;
      near(known(c.meanThicknessOfRoundEdge(cut)), area / edge, 1e-6);
    });
  }

  it('working diameters come from the section of the tool, also at tiny depth under a ball', () => {
    for (const depth of [1e-9, 1e-4, 0.01, 1, 4.999]) {
      const radius = Math.sqrt(2 * 5 * depth - depth ** 2);
      near(known(c.ballEffectiveDiameter({ diameter_mm: 10, axial_depth_mm: depth })), 2 * radius, 1e-6);
    }
    const bull = known(
      c.bullEffectiveDiameter({ diameter_mm: 12, corner_radius_mm: 6, axial_depth_mm: 0.7 }),
    );
    near(bull, known(c.ballEffectiveDiameter({ diameter_mm: 12, axial_depth_mm: 0.7 })), 1e-12);
  });

  it('tilted ball: greatest and least radius of the contact found by sampling the cap', () => {
    for (const tilt of [0, 10, 15, 40, 80]) {
      const half = Math.acos(1 - (2 * 0.3) / 10);
      let most = 0;
      let least = Infinity;
      for (let i = 0; i <= 4000; i++) {
        const from = rad(tilt) + half * ((2 * i) / 4000 - 1);
        most = Math.max(most, 10 * Math.abs(Math.sin(Math.min(Math.abs(from), Math.PI / 2))));
        least = Math.min(least, 10 * Math.abs(Math.sin(Math.abs(from))));
      }
      const span = present(
        c.tiltedBallEffectiveDiameter({ diameter_mm: 10, axial_depth_mm: 0.3, tilt_deg: tilt }),
      );
      near(span.largest_mm, most, 1e-6);
      assert.ok(Math.abs(span.smallest_mm - least) < 3e-3, `${span.smallest_mm} against ${least}`);
    }
  });

  it('plunge milling: circle cells inside the wall', () => {
    for (const width of [0.5, 6, 10, 19, 20]) {
      const chord = (y: number) => 2 * Math.sqrt(100 - y * y);
      const area = midpoint(chord, -10, -10 + width, 200_000);
      near(
        known(c.plungeRemoval({ diameter_mm: 20, radial_width_mm: width, feed_mm_min: 1000 })),
        area,
        1e-5,
        `${width}`,
      );
    }
  });
});
