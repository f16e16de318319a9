/** Depth of cut is the thickness of the metal square to the feed (ISO 3002-3), whatever the angle of the edge and the nose. */
import assert from 'node:assert/strict';
import { LatheStock } from '../../../server/src/stock/lathe.ts';
import { type TurningSpec, turningTool } from '../../../server/src/stock/turning-tool.ts';

type Point = readonly [z: number, x: number];

interface Depth {
  name: string;
  tool: TurningSpec;
  from: Point;
  to: Point;
  bore?: number;
  depth_mm: number;
}

const turn = (edge_angle_deg: number, nose_radius_mm: number): TurningSpec => ({
  kind: 'turn',
  nose_radius_mm,
  edge_angle_deg,
  point_angle_deg: Math.min(80, 170 - edge_angle_deg),
});
const GROOVE: TurningSpec = { kind: 'groove', width_mm: 3, nose_radius_mm: 0.2 };

const along: Depth[] = [45, 75, 90, 95].flatMap(edge =>
  [0, 0.4, 0.8].flatMap(nose =>
    [0.2, 1, 3].map(depth_mm => ({
      name: `turning ${depth_mm} deep, edge at ${edge} degrees, nose ${nose}`,
      tool: turn(edge, nose),
      from: [2, 25 - depth_mm] as const,
      to: [-28, 25 - depth_mm] as const,
      depth_mm,
    })),
  ),
);

// an edge under 90 degrees would cut into the face that it leaves
const across: Depth[] = [90, 95].flatMap(edge =>
  [0.2, 1, 2].flatMap(depth_mm =>
    [0, 12].map(x => ({
      name: `facing ${depth_mm} off down to radius ${x}, edge at ${edge} degrees`,
      tool: turn(edge, 0.4),
      from: [-depth_mm, 27] as const,
      to: [-depth_mm, x] as const,
      depth_mm,
    })),
  ),
);

const others: Depth[] = [
  {
    name: 'boring from 10 to 12',
    tool: { ...turn(75, 0.4), kind: 'bore-bar' },
    bore: 10,
    from: [2, 12],
    to: [-30, 12],
    depth_mm: 2,
  },
  {
    // the bar stands 1 to 5 over the way: 3 in the mean, square to a slope of 4 to 30
    name: 'a taper',
    tool: turn(90, 0),
    from: [0, 20],
    to: [-30, 24],
    depth_mm: 3 * (30 / Math.hypot(30, 4)),
  },
  {
    name: 'a groove with round corners: the width of the blade',
    tool: GROOVE,
    from: [-40, 27],
    to: [-40, 20],
    depth_mm: 3,
  },
  {
    name: 'a tube of wall 1.5 turned off whole',
    tool: turn(45, 0.4),
    bore: 23.5,
    from: [2, 20],
    to: [-30, 20],
    depth_mm: 1.5,
  },
];

describe('depth of cut of turned moves', () => {
  for (const { name, tool, from, to, bore, depth_mm } of [...along, ...across, ...others])
    it(name, () => {
      const made = turningTool(tool);
      if ('missing' in made) throw new Error(made.missing);
      const bar = { low_z_mm: -100, high_z_mm: 0, radius_mm: 25 };
      const stock = new LatheStock(bore === undefined ? bar : { ...bar, bore_radius_mm: bore });
      const found = stock.move({ kind: 'feed', from, to }, made).depth_mm;
      assert.ok(Math.abs(found - depth_mm) < 0.0005, `${found}, exact ${depth_mm}`);
    });
});
