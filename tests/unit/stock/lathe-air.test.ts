/** Share of a turned move in air, worked out by hand: a bar of radius 25 with its face at Z0 and its end at Z-100. */
import assert from 'node:assert/strict';
import { LatheStock } from '../../../server/src/stock/lathe.ts';
import type { LatheMove } from '../../../server/src/stock/lathe-moves.ts';
import { type TurningSpec, turningTool } from '../../../server/src/stock/turning-tool.ts';

type Point = readonly [z: number, x: number];

interface Air {
  name: string;
  tool: TurningSpec;
  bore?: number;
  /** What an earlier tool has turned down. */
  gap?: { from_z: number; to_z: number; radius: number };
  /** Corners of the way; of all moves but the last the share does not count. */
  way: readonly Point[];
  /** Way of the last move in air, mm; the whole of it where it cuts nothing. */
  air_mm: number;
  /** Arc: its centre and turn. */
  arc?: { centre: Point; sweep_rad: number };
  lead_mm?: number;
  by_mm?: number;
}

const SHARP: TurningSpec = { kind: 'turn', nose_radius_mm: 0, edge_angle_deg: 90, point_angle_deg: 55 };
const NOSED: TurningSpec = { kind: 'turn', nose_radius_mm: 0.4, edge_angle_deg: 95, point_angle_deg: 80 };
const EDGE_45: TurningSpec = { kind: 'turn', nose_radius_mm: 0, edge_angle_deg: 45, point_angle_deg: 90 };
const BORE: TurningSpec = { kind: 'bore-bar', nose_radius_mm: 0.4, edge_angle_deg: 95 };
const GROOVE: TurningSpec = { kind: 'groove', width_mm: 3 };
const THREAD: TurningSpec = { kind: 'thread-turn', point_angle_deg: 60 };

const cases: Air[] = [
  {
    name: 'straight, 2 before the face and 30 in the bar: 2/32',
    tool: SHARP,
    way: [
      [2, 22],
      [-30, 22],
    ],
    air_mm: 2,
  },
  {
    name: 'the same with a nose of 0.4: the edge behind it meets the corner upright',
    tool: NOSED,
    way: [
      [2, 22],
      [-30, 22],
    ],
    air_mm: 2,
  },
  {
    // the nose meets the corner sqrt(0.4^2 - 0.3^2) = 0.26458 before its middle, 0.13542 behind its tip
    name: '0.1 deep with a nose of 0.4: only the nose cuts',
    tool: NOSED,
    way: [
      [2, 24.9],
      [-30, 24.9],
    ],
    air_mm: 2.13542,
    by_mm: 0.003,
  },
  {
    name: 'an edge of 45 degrees meets the corner 3 before the tip',
    tool: EDGE_45,
    way: [
      [5, 22],
      [-30, 22],
    ],
    air_mm: 2,
  },
  {
    name: 'a pass over the end of the bar: 2 before, 5 behind',
    tool: SHARP,
    way: [
      [2, 22],
      [-105, 22],
    ],
    air_mm: 7,
  },
  {
    name: 'a pass over a gap of 8 that is there: 2 before the face and the gap',
    tool: SHARP,
    gap: { from_z: -20, to_z: -12, radius: 15 },
    way: [
      [2, 22],
      [-30, 22],
    ],
    air_mm: 10,
  },
  {
    name: 'facing over a shoulder: from its radius of 15 on',
    tool: SHARP,
    gap: { from_z: -2, to_z: 0, radius: 15 },
    way: [
      [-1, 27],
      [-1, 0],
    ],
    air_mm: 12,
  },
  {
    name: 'the same pass again cuts nothing',
    tool: SHARP,
    way: [
      [2, 22],
      [-30, 22],
      [-30, 27],
      [2, 27],
      [2, 22],
      [-30, 22],
    ],
    air_mm: 32,
  },
  {
    name: 'deeper in the track of a shorter pass: all of it but the 2 before',
    tool: SHARP,
    way: [
      [2, 22],
      [-30, 22],
      [-30, 27],
      [2, 27],
      [2, 20],
      [-40, 20],
    ],
    air_mm: 2,
  },
  {
    name: 'at the same radius past the end of a shorter pass: 32 in air, 10 in metal',
    tool: SHARP,
    way: [
      [2, 22],
      [-30, 22],
      [2, 22],
      [-40, 22],
    ],
    air_mm: 32,
  },
  {
    name: 'facing 1 off from 2 outside to the axis',
    tool: SHARP,
    way: [
      [-1, 27],
      [-1, 0],
    ],
    air_mm: 2,
  },
  {
    // the corner of the nose stands 0.4 behind: the last of the face is off when the tip is 0.4 past the axis
    name: 'facing past the axis by 0.8 with a nose of 0.4',
    tool: { kind: 'turn', nose_radius_mm: 0.4, edge_angle_deg: 95 },
    way: [
      [-1, 27],
      [-1, -0.8],
    ],
    air_mm: 2.4,
    by_mm: 0.03,
  },
  {
    name: 'facing a ring down into its bore of radius 10: 2 outside, 4 in the bore',
    tool: SHARP,
    bore: 10,
    way: [
      [-1, 27],
      [-1, 6],
    ],
    // the trailing edge rises by tan 35 over the 1 before the tip: the last is off 0.7002 after the tip has come through
    air_mm: 6 - 0.7002,
    by_mm: 0.01,
  },
  {
    name: 'facing out of a bore of radius 10, from 0.4 inside its wall to 2 outside',
    tool: NOSED,
    bore: 10,
    way: [
      [-0.3, 9.6],
      [-0.3, 27],
    ],
    air_mm: 2.4,
  },
  {
    name: 'boring from 10 to 12 from 2 before the face',
    tool: BORE,
    bore: 10,
    way: [
      [2, 12],
      [-30, 12],
    ],
    air_mm: 2,
  },
  {
    name: 'boring at the radius of the bore cuts nothing',
    tool: BORE,
    bore: 10,
    way: [
      [2, 10],
      [-30, 10],
    ],
    air_mm: 32,
  },
  {
    // in metal from Z0 to radius 25 at Z-40: 40 of 50 along Z
    name: 'a taper that leaves the bar: 2 before the face, 8 behind the place where it comes out',
    tool: SHARP,
    way: [
      [2, 20.8],
      [-48, 26.8 - 0.8],
    ],
    // slope 5.2/50: out at (25 - 20.8)/5.2 of the way; in at 2/50 of it
    air_mm: Math.hypot(50, 5.2) * (1 - 4.2 / 5.2 + 0.04),
    by_mm: 0.02,
  },
  {
    name: 'a groove from 2 outside, 5 deep',
    tool: GROOVE,
    way: [
      [-40, 27],
      [-40, 20],
    ],
    air_mm: 2,
  },
  {
    name: 'out of the groove',
    tool: GROOVE,
    way: [
      [-40, 27],
      [-40, 20],
      [-40, 27],
    ],
    air_mm: 7,
  },
  {
    name: 'again into the groove and 2 deeper',
    tool: GROOVE,
    way: [
      [-40, 27],
      [-40, 20],
      [-40, 27],
      [-40, 18],
    ],
    air_mm: 7,
  },
  {
    name: 'a groove beside it, half over it: from the outside on',
    tool: GROOVE,
    way: [
      [-40, 27],
      [-40, 20],
      [-40, 27],
      [-41.5, 27],
      [-41.5, 20],
    ],
    air_mm: 2,
  },
  {
    name: 'a groove in a tube of wall 5: 2 outside, 1 through',
    tool: GROOVE,
    bore: 20,
    way: [
      [-40, 27],
      [-40, 19],
    ],
    air_mm: 3,
  },
  {
    // x = 25 sin a, z = 25 cos a - 25; the last 0.05 mm2 aside all of it is in metal
    name: 'a half ball, all of it in metal',
    tool: SHARP,
    way: [
      [0, 0],
      [-25, 25],
    ],
    arc: { centre: [-25, 0], sweep_rad: Math.PI / 2 },
    air_mm: 0,
    // what is less than a chord deep is left out: 25 acos(1 - 0.0005/25) = 0.158
    by_mm: 0.3,
  },
  {
    // from Z4 down the arc is before the face until 10 (1 - cos a) = 4
    name: 'a quarter circle of radius 10 that begins 4 before the face',
    tool: SHARP,
    way: [
      [4, 10],
      [-6, 20],
    ],
    arc: { centre: [-6, 10], sweep_rad: Math.PI / 2 },
    air_mm: 10 * Math.acos(0.6),
    by_mm: 0.05,
  },
  {
    // the flank meets the face 0.4 tan 30 before the point
    name: 'first pass of a thread, 0.4 deep, from 3 before the face',
    tool: THREAD,
    way: [
      [3, 24.6],
      [-20, 24.6],
    ],
    lead_mm: 2,
    air_mm: 3 - 0.4 * Math.tan(Math.PI / 6),
  },
  {
    name: 'second pass of a thread: the flanks reach over its whole depth of 0.7',
    tool: THREAD,
    way: [
      [3, 24.6],
      [-20, 24.6],
      [3, 24.3],
      [-20, 24.3],
    ],
    lead_mm: 2,
    air_mm: 3 - 0.7 * Math.tan(Math.PI / 6),
  },
  {
    name: 'a spring pass cuts nothing',
    tool: THREAD,
    way: [
      [3, 24.6],
      [-20, 24.6],
      [3, 24.6],
      [-20, 24.6],
    ],
    lead_mm: 2,
    air_mm: 23,
  },
];

/** Runs the way; every other corner of a thread is gone to beside the bar. */
function airOf({ tool, bore, gap, way, arc, lead_mm }: Air): { share: number; length: number } {
  const made = turningTool(tool);
  if ('missing' in made) throw new Error(made.missing);
  const bar = { low_z_mm: -100, high_z_mm: 0, radius_mm: 25 };
  const stock = new LatheStock(bore === undefined ? bar : { ...bar, bore_radius_mm: bore });
  if (gap)
    stock.outer.fill(gap.radius, Math.round((gap.from_z + 100) * 100), Math.round((gap.to_z + 100) * 100));
  let share = Number.NaN;
  for (let k = 1; k < way.length; k++) {
    if (lead_mm !== undefined && k % 2 === 0) continue;
    const ends = { from: way[k - 1], to: way[k] };
    const kind = lead_mm === undefined ? (arc ? 'arc' : 'feed') : 'thread';
    const move: LatheMove = { kind, ...ends, ...arc, ...(lead_mm === undefined ? {} : { lead_mm }) };
    share = stock.move(move, made).air_share;
  }
  const [from, to] = way.slice(-2);
  const straight = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const radius = arc ? Math.hypot(to[0] - arc.centre[0], to[1] - arc.centre[1]) : 0;
  return { share, length: arc ? radius * arc.sweep_rad : straight };
}

describe('share of a turned move in air', () => {
  for (const given of cases)
    it(given.name, () => {
      const { share, length } = airOf(given);
      const { air_mm, by_mm = 0.0015 } = given;
      assert.ok(
        Math.abs(share * length - air_mm) <= by_mm,
        `${share * length} of ${length} mm, exact ${air_mm}`,
      );
    });

  it('slices of another width give the same', () => {
    const made = turningTool(NOSED);
    if ('missing' in made) throw new Error(made.missing);
    for (const slice_mm of [0.01, 0.025, 0.1, 0.5]) {
      const stock = new LatheStock({ low_z_mm: -100, high_z_mm: 0, radius_mm: 25, slice_mm });
      const { air_share } = stock.move({ kind: 'feed', from: [2, 22], to: [-30, 22] }, made);
      assert.ok(Math.abs(air_share - 0.0625) < 1e-6, `${air_share} at ${slice_mm}`);
    }
  });

  it('is not known of a facing edge without width', () => {
    const made = turningTool({ kind: 'turn', edge_angle_deg: 90 });
    if ('missing' in made) throw new Error(made.missing);
    const stock = new LatheStock({ low_z_mm: -100, high_z_mm: 0, radius_mm: 25 });
    assert.ok(Number.isNaN(stock.move({ kind: 'feed', from: [-1, 27], to: [-1, 10] }, made).air_share));
  });

  // a drill of 10 mm: its point is 5/tan 59 = 3.0043 long
  const drilling: [string, number | undefined, number, readonly [from: number, to: number][], number][] = [
    ['from 5 before the face', undefined, 118, [[5, -20]], 5],
    [
      'a second time, 10 deeper',
      undefined,
      118,
      [
        [5, -20],
        [5, -30],
      ],
      25,
    ],
    [
      'a peck from 1 over the ground',
      undefined,
      118,
      [
        [5, -20],
        [-19, -24],
      ],
      1,
    ],
    [
      'a peck that stays over the ground',
      undefined,
      118,
      [
        [5, -20],
        [5, -19],
      ],
      24,
    ],
    // the lips meet the edge of the hole when the tip is 2.5/tan 59 = 1.5022 under the face
    ['into a hole of 5 mm', 2.5, 118, [[5, -20]], 6.5022],
    [
      'out of the far end: the full diameter is out 3.0043 past it',
      undefined,
      118,
      [[5, -110]],
      5 + 10 - 3.0043,
    ],
    ['flat, into a hole of its own size', 5, 180, [[5, -20]], 25],
    ['flat, from 2 before the face', undefined, 180, [[2, -20]], 2],
  ];
  for (const [name, bore, point, ways, air_mm] of drilling)
    it(`drills ${name}`, () => {
      const bar = { low_z_mm: -100, high_z_mm: 0, radius_mm: 25 };
      const stock = new LatheStock(bore === undefined ? bar : { ...bar, bore_radius_mm: bore });
      let air = Number.NaN;
      for (const [from, to] of ways) air = stock.drill(from, to, 10, point).air_share * (from - to);
      assert.ok(Math.abs(air - air_mm) < 0.015, `${air}, exact ${air_mm}`);
    });
});
