import assert from 'node:assert/strict';
import { expandLatheFinish, expandLathePattern } from '../../../../server/src/rs274/cycles/lathe-finish.ts';
import { expandLathePeck } from '../../../../server/src/rs274/cycles/lathe-peck.ts';
import { expandLatheRough, type LatheRough } from '../../../../server/src/rs274/cycles/lathe-rough.ts';
import {
  expandLatheSimple,
  type LatheSimpleState,
  type LatheSimpleWords,
} from '../../../../server/src/rs274/cycles/lathe-simple.ts';
import type { Profile, ProfileSegment } from '../../../../server/src/rs274/cycles/profile.ts';
import { at, expectLathe, expectLengths, lathe } from './lathe-tables.ts';

/** Reads a profile: `r x z` rapid, `f x z` line, `a x z cx cz sweep_deg`; X and cx as diameters. */
function profile(start: readonly [number, number], text: string): Profile {
  const segments = text.split(';').map((row): ProfileSegment => {
    const [letter, ...words] = row.trim().split(/\s+/);
    const [x, z, centre_x, centre_z, sweep] = words.map(Number);
    const to = at(x, z);
    if (letter !== 'a') return { kind: letter === 'r' ? 'rapid' : 'line', to };
    const turn = {
      plane: 'zx' as const,
      centre_first: centre_z,
      centre_second: centre_x / 2,
      sweep_rad: (sweep * Math.PI) / 180,
    };
    return { kind: 'arc', to, turn };
  });
  return { start: at(...start), segments };
}

// The worked cases of this file: hand tables of common practice, no source. X in tables is a diameter.
describe('simple lathe cycles', () => {
  const run = (
    start: readonly [number, number],
    blocks: readonly (readonly [LatheSimpleWords, string])[],
  ) => {
    let state: LatheSimpleState | undefined;
    for (const [words, table] of blocks) {
      const { events, sink } = lathe(start);
      const result = expandLatheSimple(words, state, { position: at(...start), lead_mm: 0.0833 }, sink);
      expectLathe(events, table);
      assert.deepEqual(result.position, at(...start));
      state = result.state;
    }
  };

  it('turns, sticky Z then both changed (inch)', () => {
    run(
      [2.1, 0.1],
      [
        [{ kind: 'turn', x: 0.95, z: -1.5 }, 'r 1.9 .1; f 1.9 -1.5; f 2.1 -1.5; r 2.1 .1'],
        [{ x: 0.85 }, 'r 1.7 .1; f 1.7 -1.5; f 2.1 -1.5; r 2.1 .1'],
        [{ x: 0.76, z: -1.48 }, 'r 1.52 .1; f 1.52 -1.48; f 2.1 -1.48; r 2.1 .1'],
        [{ kind: 'face', x: -0.03, z: 0 }, 'r 2.1 0; f -.06 0; f -.06 .1; r 2.1 .1'],
      ],
    );
  });

  it('threads in four passes (inch)', () => {
    run(
      [1.7, 0.2],
      [
        [{ kind: 'thread', x: 0.74, z: -0.9 }, 'r 1.48 .2; h 1.48 -.9; r 1.7 -.9; r 1.7 .2'],
        [{ x: 0.73 }, 'r 1.46 .2; h 1.46 -.9; r 1.7 -.9; r 1.7 .2'],
        [{ x: 0.7225 }, 'r 1.445 .2; h 1.445 -.9; r 1.7 -.9; r 1.7 .2'],
        [{ x: 0.7175 }, 'r 1.435 .2; h 1.435 -.9; r 1.7 -.9; r 1.7 .2'],
      ],
    );
  });

  it('turns and faces with a taper', () => {
    run(
      [60, 2],
      [
        [{ kind: 'turn', x: 25, z: -30, taper: -5 }, 'r 40 2; f 50 -30; f 60 -30; r 60 2'],
        [{ x: 24 }, 'r 38 2; f 48 -30; f 60 -30; r 60 2'],
        [{ kind: 'face', x: 10, z: -2, taper: -3 }, 'r 60 -5; f 20 -2; f 20 2; r 60 2'],
      ],
    );
  });

  it('refuses a cycle without an end', () => {
    const { events, sink } = lathe([60, 2]);
    const result = expandLatheSimple(
      { kind: 'turn', x: 25 },
      undefined,
      { position: at(60, 2), lead_mm: 1 },
      sink,
    );
    assert.equal(events.length, 0);
    assert.equal(result.expanded, false);
    assert.equal(result.problems[0].code, 'cycle-word-missing');
  });
});

const BUSHING = 'r 26 2; f 26 0; f 30 -2; f 30 -25; f 42 -25; f 50 -37; f 60 -37';

describe('roughing and finishing along a profile', () => {
  const rough = (
    start: readonly [number, number],
    cycle: LatheRough,
    table: string,
    problems: string[] = [],
  ) => {
    const { events, sink } = lathe(start);
    const result = expandLatheRough(cycle, at(...start), sink);
    expectLathe(events, table);
    assert.deepEqual(
      result.problems.map(problem => problem.code),
      problems,
    );
    assert.deepEqual(result.position, at(...start));
    return events;
  };

  it('G71 type I: eight levels, then the offset profile', () => {
    const events = rough(
      [62, 2],
      {
        direction: 'turn',
        profile: profile([62, 2], BUSHING),
        depth_mm: 2,
        retract_mm: 0.5,
        allowance_x: 0.2,
        allowance_z: 0.1,
        pockets: false,
      },
      `r 58 2; f 58 -36.9; r 59 -36.4; r 59 2
       r 54 2; f 54 -36.9; r 55 -36.4; r 55 2
       r 50 2; f 50 -36.3; r 51 -35.8; r 51 2
       r 46 2; f 46 -30.3; r 47 -29.8; r 47 2
       r 42 2; f 42 -24.9; r 43 -24.4; r 43 2
       r 38 2; f 38 -24.9; r 39 -24.4; r 39 2
       r 34 2; f 34 -24.9; r 35 -24.4; r 35 2
       r 30 2; f 30 -1.7; r 31 -1.2; r 31 2
       r 26.4 2; r 26.4 2.1; f 26.4 .1; f 30.4 -1.9; f 30.4 -24.9; f 42.4 -24.9; f 50.4 -36.9; f 60.4 -36.9
       r 62 -36.9; r 62 2`,
    );
    expectLengths(events, { rapid: 296.056856, feed: 284.277538 });
  });

  it('G70: the profile with the index of each block', () => {
    const { events, sink } = lathe([62, 2]);
    expandLatheFinish(profile([62, 2], BUSHING), at(62, 2), sink);
    expectLathe(events, 'r 26 2; f 26 0; f 30 -2; f 30 -25; f 42 -25; f 50 -37; f 60 -37; r 62 -37; r 62 2');
    assert.deepEqual(
      events.map(event => event.segment),
      [0, 1, 2, 3, 4, 5, 6, undefined, undefined],
    );
    expectLengths(events, { rapid: 58, feed: 51.477538 });
  });

  it('G71 over a fillet meets the arc', () => {
    // Fillet of 5 from Z-15 X20 to Z-20 X30, centre X30 Z-15: at X24 (3 mm from the centre) Z = -15 - 4.
    rough(
      [32, 1],
      {
        direction: 'turn',
        profile: profile([32, 1], 'r 20 1; f 20 -15; a 30 -20 30 -15 -90; f 32 -20'),
        depth_mm: 4,
        retract_mm: 1,
        allowance_x: 0,
        allowance_z: 0,
        pockets: false,
      },
      `r 24 1; f 24 -19; r 26 -18; r 26 1
       r 20 1; f 20 -15; a 30 -20; f 32 -20; r 32 1`,
    );
  });

  it('G71 inside work goes outward', () => {
    rough(
      [20, 2],
      {
        direction: 'turn',
        profile: profile([20, 2], 'r 40 2; f 40 -10; f 30 -10; f 30 -20; f 20 -20'),
        depth_mm: 4,
        retract_mm: 0.5,
        allowance_x: -0.2,
        allowance_z: 0.1,
        pockets: false,
      },
      `r 28 2; f 28 -19.9; r 27 -19.4; r 27 2
       r 36 2; f 36 -9.9; r 35 -9.4; r 35 2
       r 39.6 2; r 39.6 2.1; f 39.6 -9.9; f 29.6 -9.9; f 29.6 -19.9; f 19.6 -19.9
       r 20 -19.9; r 20 2`,
    );
  });

  it('G72: levels along Z, cuts along X', () => {
    rough(
      [62, 2],
      {
        direction: 'face',
        profile: profile([62, 2], 'r 62 -4; f 20 -4; f 20 2'),
        depth_mm: 1,
        retract_mm: 0.5,
        allowance_x: 0.2,
        allowance_z: 0.1,
        pockets: false,
      },
      `r 62 1; f 20.4 1; r 21.4 1.5; r 62 1.5
       r 62 0; f 20.4 0; r 21.4 .5; r 62 .5
       r 62 -1; f 20.4 -1; r 21.4 -.5; r 62 -.5
       r 62 -2; f 20.4 -2; r 21.4 -1.5; r 62 -1.5
       r 62 -3; f 20.4 -3; r 21.4 -2.5; r 62 -2.5
       r 62 -3.9; r 62.4 -3.9; f 20.4 -3.9; f 20.4 2.1
       r 20.4 2; r 62 2`,
    );
  });

  it('G71 type II cuts a pocket level by level', () => {
    rough(
      [44, 2],
      {
        direction: 'turn',
        profile: profile([44, 2], 'r 40 0; f 40 -10; f 32 -14; f 32 -20; f 40 -20; f 44 -20'),
        depth_mm: 2,
        retract_mm: 0.5,
        allowance_x: 0,
        allowance_z: 0,
        pockets: true,
      },
      `r 44 -10; f 40 -10; f 40 -20; r 41 -19.5; r 44 -19.5; r 44 2
       r 44 -10; r 40 -10; f 36 -12; f 36 -20; r 37 -19.5; r 44 -19.5; r 44 2
       r 40 2; r 40 0; f 40 -10; f 32 -14; f 32 -20; f 40 -20; f 44 -20; r 44 2`,
    );
  });

  it('says when a type I profile turns back, and needs a depth', () => {
    const cycle = {
      direction: 'turn',
      profile: profile([44, 2], 'r 40 2; f 40 -10; f 36 -14; f 44 -14'),
      depth_mm: 0,
      retract_mm: 0.5,
      allowance_x: 0,
      allowance_z: 0,
      pockets: false,
    } as const;
    rough([44, 2], cycle, 'r 40 2; f 40 -10; f 36 -14; f 44 -14; r 44 2', [
      'cycle-profile-not-monotone',
      'cycle-depth-bad',
    ]);
  });

  it('does not cut levels without end', () => {
    const { events, sink } = lathe([62, 2]);
    const cycle = {
      direction: 'turn',
      profile: profile([62, 2], BUSHING),
      depth_mm: 1e-9,
      retract_mm: 0.5,
      allowance_x: 0,
      allowance_z: 0,
      pockets: true,
    } as const;
    const result = expandLatheRough(cycle, at(62, 2), sink);
    assert.deepEqual(
      result.problems.map(problem => problem.code),
      ['cycle-too-long'],
    );
    assert.equal(events.length, 9);
  });

  it('G73: three shifted passes', () => {
    const { events, sink } = lathe([50, 5]);
    const cycle = {
      profile: profile([50, 5], 'r 30 1; f 30 -10'),
      shift_x: 3,
      shift_z: 2,
      passes: 3,
      allowance_x: 0.2,
      allowance_z: 0.1,
    };
    expandLathePattern(cycle, at(50, 5), sink);
    expectLathe(
      events,
      `r 56.4 7.1; r 36.4 3.1; f 36.4 -7.9; r 56.4 -7.9
       r 53.4 6.1; r 33.4 2.1; f 33.4 -8.9; r 53.4 -8.9
       r 50.4 5.1; r 30.4 1.1; f 30.4 -9.9; r 50.4 -9.9
       r 50 -9.9; r 50 5`,
    );
  });

  it('does nothing from an unknown place or without a profile', () => {
    const { events, sink } = lathe([62, 2]);
    assert.equal(expandLatheFinish(profile([62, 2], BUSHING), at(Number.NaN, 2), sink).expanded, false);
    assert.equal(expandLatheFinish({ start: at(62, 2), segments: [] }, at(62, 2), sink).expanded, false);
    assert.equal(events.length, 0);
  });
});

describe('pecking on a lathe', () => {
  it('G75: three plunges of three pecks (inch)', () => {
    const { events, sink } = lathe([1.6, -1]);
    expandLathePeck(
      { direction: 'groove', x: 0.65, z: -1.2, step_x: 0.05, step_z: 0.1, back_mm: 0.01 },
      at(1.6, -1),
      sink,
    );
    expectLathe(
      events,
      `f 1.5 -1; r 1.52 -1; f 1.4 -1; r 1.42 -1; f 1.3 -1; r 1.6 -1
       r 1.6 -1.1; f 1.5 -1.1; r 1.52 -1.1; f 1.4 -1.1; r 1.42 -1.1; f 1.3 -1.1; r 1.6 -1.1
       r 1.6 -1.2; f 1.5 -1.2; r 1.52 -1.2; f 1.4 -1.2; r 1.42 -1.2; f 1.3 -1.2; r 1.6 -1.2
       r 1.6 -1`,
    );
    expectLengths(events, { feed: 0.51, rapid: 0.91 });
  });

  it('G74 on the centre line, last peck shortened', () => {
    const { events, sink } = lathe([0, 2]);
    expandLathePeck({ direction: 'face', z: -10, step_z: 5, back_mm: 1 }, at(0, 2), sink);
    expectLathe(events, 'f 0 -3; r 0 -2; f 0 -8; r 0 -7; f 0 -10; r 0 2');
  });

  it('G74 across a face with relief at the bottom', () => {
    const { events, sink } = lathe([40, 1]);
    expandLathePeck(
      { direction: 'face', x: 15, z: -3, step_x: 3, back_mm: 1, relief_mm: 0.2 },
      at(40, 1),
      sink,
    );
    expectLathe(
      events,
      'f 40 -3; r 40 1; r 34 1; f 34 -3; r 34.4 -3; r 34.4 1; r 30 1; f 30 -3; r 30.4 -3; r 30.4 1; r 40 1',
    );
  });

  it('refuses steps that never end', () => {
    const { events, sink } = lathe([0, 2]);
    const result = expandLathePeck({ direction: 'face', z: -10, step_z: 1e-6, back_mm: 1 }, at(0, 2), sink);
    assert.equal(result.problems[0].code, 'cycle-too-long');
    assert.equal(events.length, 0);
  });
});
