import assert from 'node:assert/strict';
import * as c from '../../../server/src/cutting/index.ts';
import { known, midpoint, near, present } from './slow.ts';

describe('time and cost against stepping', () => {
  /** Time of a move by small steps of way: speed limited by what acceleration from the start and to the end allows. */
  const stepped = (length: number, feed: number, a: number, entry: number, exit: number) => {
    const speed = (x: number) =>
      Math.min(feed, Math.sqrt(entry * entry + 2 * a * x), Math.sqrt(exit * exit + 2 * a * (length - x)));
    // substitution takes the infinite slope at standstill out of both ends
    const at = (u: number) => length * u * u * (3 - 2 * u);
    return midpoint(u => (length * 6 * u * (1 - u)) / speed(at(u)), 0, 1, 400_000);
  };
  for (const [length, feed, a, entry, exit] of [
    [100, 100, 1000, 0, 0],
    [4, 100, 1000, 0, 0],
    [5, 1000, 1000, 20, 40],
    [0.05, 50, 500, 30, 30],
    [30, 200, 3000, 0, 150],
    [12, 80, 1500, 80, 10],
  ] as const) {
    it(`move of ${length} mm at ${feed} mm/s, ${a} mm/s2, from ${entry} to ${exit}`, () => {
      const move = present(
        c.limitedMove({
          length_mm: length,
          feed_mm_min: 60 * feed,
          acceleration_m_s2: a / 1000,
          entry_mm_min: 60 * entry,
          exit_mm_min: 60 * exit,
        }),
      );
      near(move.time_s, stepped(length, feed, a, entry, exit), 1e-4);
    });
  }

  for (const [length, feed, a, jerk] of [
    [100, 100, 1, 20],
    [1, 100, 1, 20],
    [5, 500, 2, 1000],
    [40, 300, 5, 50],
  ] as const) {
    it(`move of ${length} mm with jerk ${jerk} m/s3: time stepping of the seven phases covers the length`, () => {
      const move = present(
        c.limitedMove({ length_mm: length, feed_mm_min: 60 * feed, acceleration_m_s2: a, jerk_m_s3: jerk }),
      );
      // drive up to the peak with bounded jerk, then the mirror image; what is left is cruise
      const peak = move.peak_mm_min / 60;
      const dt = move.time_s / 400_000;
      const top = Math.min(1000 * a, Math.sqrt(peak * 1000 * jerk));
      const rise = top / (1000 * jerk);
      const ramp = peak / top + rise;
      let [speed, way, time, push] = [0, 0, 0, 0];
      while (time < ramp) {
        push = Math.max(0, Math.min(top, 1000 * jerk * time, 1000 * jerk * (ramp - time)));
        speed += push * dt;
        way += speed * dt;
        time += dt;
      }
      near(speed, peak, 1e-3, 'peak');
      near(2 * way + peak * (move.time_s - 2 * ramp), length, 2e-3, 'length');
      assert.ok(peak <= feed * (1 + 1e-12));
    });
  }

  it('without jerk limit the S-shaped move becomes the trapezoid', () => {
    const given = { length_mm: 20, feed_mm_min: 6000, acceleration_m_s2: 1 };
    const plain = present(c.limitedMove(given));
    near(present(c.limitedMove({ ...given, jerk_m_s3: 1e7 })).time_s, plain.time_s, 1e-4);
  });

  it('a planned path equals a search for the highest speeds at the borders', () => {
    const length_mm = [3, 0.4, 0.02, 0.02, 5, 1, 0.3];
    const feed_mm_min = [6000, 6000, 3000, 3000, 6000, 1200, 6000];
    const corner_mm_min = [6000, 900, 3000, 3000, 2400, 6000, 0];
    const a = 1500;
    const path = present(c.planPath({ length_mm, feed_mm_min, corner_mm_min, acceleration_m_s2: a / 1000 }));
    // relax: lower any border speed that a neighbour cannot reach, until nothing changes
    const speed = length_mm.map((_, i) =>
      i + 1 < length_mm.length ? Math.min(corner_mm_min[i]!, feed_mm_min[i]!, feed_mm_min[i + 1]!) / 60 : 0,
    );
    for (let turn = 0; turn < 100; turn++) {
      for (let i = 0; i < speed.length; i++) {
        const before = i === 0 ? 0 : speed[i - 1]!;
        speed[i] = Math.min(speed[i]!, Math.sqrt(before ** 2 + 2 * a * length_mm[i]!));
        if (i > 0) speed[i - 1] = Math.min(speed[i - 1]!, Math.sqrt(speed[i]! ** 2 + 2 * a * length_mm[i]!));
      }
    }
    for (const [i, expected] of speed.entries())
      assert.ok(Math.abs(path.exit_mm_min[i]! / 60 - expected) < 1e-9);
    const total = length_mm.reduce(
      (sum, length, i) =>
        sum + stepped(length, feed_mm_min[i]! / 60, a, i === 0 ? 0 : speed[i - 1]!, speed[i]!),
      0,
    );
    near(path.total_s, total, 1e-3);
  });

  it('less look-ahead is never faster, and enough of it equals all', () => {
    const count = 200;
    const length_mm = Float64Array.from({ length: count }, (_, i) => 0.02 + ((i * 37) % 11) / 20);
    const feed_mm_min = new Float64Array(count).fill(5000);
    const corner_mm_min = Float64Array.from({ length: count }, (_, i) => ((i * 53) % 17) * 400);
    const time = (blocks_ahead?: number) =>
      present(c.planPath({ length_mm, feed_mm_min, corner_mm_min, acceleration_m_s2: 2, blocks_ahead }))
        .total_s;
    const all = time();
    let before = Infinity;
    for (const ahead of [1, 2, 5, 20, 199]) {
      assert.ok(time(ahead) <= before * (1 + 1e-12) && time(ahead) >= all * (1 - 1e-12));
      before = time(ahead);
    }
    near(time(200), all, 1e-12);
    near(time(199), all, 1e-9);
  });

  it('facing time under constant surface speed: turn by turn', () => {
    for (const [from, to, limit] of [
      [100, 0, 3000],
      [60, 30, 3000],
      [18, 4, 3000],
      [0, 80, 1200],
    ] as const) {
      const rpm = (d: number) => Math.min(limit, (1000 * 200) / (Math.PI * d));
      const time = Math.abs(midpoint(d => 1 / (2 * 0.2 * rpm(d)), from, to, 100_000));
      const given = { surface_speed_m_min: 200, feed_per_rev_mm: 0.2, max_rpm: limit };
      near(known(c.facingTime({ from_diameter_mm: from, to_diameter_mm: to, ...given })), time, 1e-5);
    }
  });

  it('speed of least cost: no other speed costs less', () => {
    const cost = (speed: number) =>
      known(
        c.partCost({
          machine_cost_per_min: 0.5,
          handling_min: 0,
          cut_min: 100 / speed,
          tool_change_min: 2,
          life_min: (70 / speed) ** 8,
          tool_cost: 3,
        }),
      );
    const best = present(
      c.leastCostSpeed({
        c_m_min: 70,
        n: 0.125,
        tool_change_min: 2,
        machine_cost_per_min: 0.5,
        tool_cost: 3,
      }),
    ).surface_speed_m_min;
    let [least, at] = [Infinity, 0];
    for (let speed = 30; speed < 60; speed += 0.001)
      if (cost(speed) < least) [least, at] = [cost(speed), speed];
    near(best, at, 1e-4);
  });

  it('peck cycle: move by move', () => {
    // 12 deep, R 2, Q 5, gap 1, F 100, rapid 6000
    // feed 7, rapid 7 out, 6 in; feed 1 + 5, rapid 12 out, 11 in; feed 1 + 2, rapid 14 out
    const seconds = 60 * ((7 + 6 + 3) / 100 + (7 + 6 + 12 + 11 + 14) / 6000);
    const hole = {
      depth_mm: 12,
      clearance_mm: 2,
      feed_mm_min: 100,
      rapid_mm_min: 6000,
      peck_mm: 5,
      retract_mm: 1,
    };
    near(known(c.holeTime({ cycle: 'peck', ...hole })), seconds, 1e-12);
    // chip-break: feed 7, back 1, feed 6, back 1, feed 3, rapid 14 out
    const chips = 60 * ((7 + 6 + 3) / 100 + (1 + 1 + 14) / 6000);
    near(known(c.holeTime({ cycle: 'chip-break', ...hole })), chips, 1e-12);
  });

  it('servo lag at the start of a thread: stepping the lagging axis', () => {
    const speed = (2 * 800) / 60;
    const tau = 0.033;
    let [axis, time] = [0, 0];
    const dt = 1e-6;
    while (Math.exp(-time / tau) > 0.02) {
      axis += speed * (1 - Math.exp(-time / tau)) * dt;
      time += dt;
    }
    near(
      known(c.threadRunUp({ lead_mm: 2, spindle_rpm: 800, time_constant_s: tau, pitch_error: 0.02 })),
      axis,
      1e-3,
    );
  });

  it('runout: a surface cut tooth by tooth', () => {
    const offsets = [0, 0.03, -0.02, 0.01];
    const feed = 0.025;
    // the surface is where the deepest tooth so far has cut to; after some turns the chips repeat
    let surface = -1;
    const chips: number[] = [];
    for (let tooth = 0; tooth < 400; tooth++) {
      const reach = tooth * feed + offsets[tooth % 4]!;
      if (tooth >= 396) chips.push(Math.max(0, reach - surface));
      surface = Math.max(surface, reach);
    }
    const fast = present(c.runoutChips({ chip_load_mm: feed, radius_offsets_mm: offsets }));
    for (const [i, chip] of chips.entries())
      assert.ok(Math.abs(fast.chips_mm[i]! - chip) < 1e-9, `${fast.chips_mm}`);
    near(
      fast.chips_mm.reduce((a, b) => a + b, 0),
      4 * feed,
      1e-9,
    );
  });
});
