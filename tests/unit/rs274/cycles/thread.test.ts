import assert from 'node:assert/strict';
import {
  expandLatheThread,
  type LatheThread,
  threadDepths_mm,
} from '../../../../server/src/rs274/cycles/lathe-thread.ts';
import {
  latheCycleLength_mm,
  pointForm,
  roughForm,
  splitThreadSetup,
} from '../../../../server/src/rs274/cycles/lathe-words.ts';
import { expandRigidTap, expandSinglePass } from '../../../../server/src/rs274/cycles/synchronised.ts';
import {
  expandThreadLine,
  type ThreadLine,
  threadLineDepths_mm,
} from '../../../../server/src/rs274/cycles/thread-line.ts';
import { at, expectLathe, expectLengths, lathe } from './lathe-tables.ts';

const rounded = (values: readonly number[] | undefined) =>
  values?.map(value => Math.round(value * 1000) / 1000);

// An M30 x 1.5 thread worked out by hand: k 0.92, q 0.3, least 0.05, r 0.05, two finishing passes.
const METRIC: LatheThread = {
  x: 14.08,
  z: -22,
  depth_mm: 0.92,
  first_mm: 0.3,
  least_mm: 0.05,
  finish_mm: 0.05,
  finish_passes: 2,
  angle_deg: 60,
  taper_mm: 0,
  lead_mm: 1.5,
};

describe('multi-pass threading', () => {
  it('takes equal chip areas, then the finishing passes', () => {
    assert.deepEqual(
      rounded(threadDepths_mm(METRIC)),
      [0.3, 0.424, 0.52, 0.6, 0.671, 0.735, 0.794, 0.849, 0.87, 0.92, 0.92],
    );
  });

  it('keeps to the least step', () => {
    assert.deepEqual(
      rounded(threadDepths_mm({ ...METRIC, depth_mm: 0.65, least_mm: 0.1 })),
      [0.3, 0.424, 0.524, 0.6, 0.65, 0.65],
    );
  });

  it('counts the last deepening pass as finishing when nothing is left', () => {
    assert.deepEqual(
      rounded(threadDepths_mm({ ...METRIC, depth_mm: 0.5, finish_mm: 0, least_mm: 0 })),
      [0.3, 0.424, 0.5, 0.5],
    );
  });

  it('gives no depths for nonsense', () => {
    for (const part of [
      { depth_mm: 0 },
      { first_mm: -1 },
      { finish_mm: 2 },
      { first_mm: 1e-6, least_mm: 0 },
    ]) {
      assert.equal(threadDepths_mm({ ...METRIC, ...part }), undefined);
    }
  });

  it('writes the passes of an external thread', () => {
    const { events, sink } = lathe([34, 4]);
    const result = expandLatheThread(METRIC, at(34, 4), sink);
    assert.deepEqual(result.problems, []);
    expectLathe(
      events,
      `r 34 3.826795; r 29.4 3.826795; h 29.4 -22; r 34 -22
       r 34 3.755051; r 29.151472 3.755051; h 29.151472 -22; r 34 -22
       r 34 3.7; r 28.96077 3.7; h 28.96077 -22; r 34 -22
       r 34 3.65359; r 28.8 3.65359; h 28.8 -22; r 34 -22
       r 34 3.612702; r 28.658359 3.612702; h 28.658359 -22; r 34 -22
       r 34 3.575736; r 28.530306 3.575736; h 28.530306 -22; r 34 -22
       r 34 3.541742; r 28.412549 3.541742; h 28.412549 -22; r 34 -22
       r 34 3.510102; r 28.302944 3.510102; h 28.302944 -22; r 34 -22
       r 34 3.497705; r 28.26 3.497705; h 28.26 -22; r 34 -22
       r 34 3.468838; r 28.16 3.468838; h 28.16 -22; r 34 -22
       r 34 3.468838; r 28.16 3.468838; h 28.16 -22; r 34 -22
       r 34 4`,
    );
    expectLengths(events, { rapid: 341.161107, thread: 281.611099 });
  });

  it('writes an internal tapered thread, straight in', () => {
    const { events, sink } = lathe([20, 2]);
    const thread = {
      ...METRIC,
      x: 12,
      z: -10,
      depth_mm: 0.5,
      first_mm: 0.5,
      finish_mm: 0,
      finish_passes: 1,
      angle_deg: 0,
    };
    expandLatheThread({ ...thread, taper_mm: 0.25 }, at(20, 2), sink);
    expectLathe(events, 'r 24.5 2; h 24 -10; r 20 -10; r 20 2');
  });

  it('names a run-out that it does not follow', () => {
    const { sink } = lathe([34, 4]);
    const result = expandLatheThread({ ...METRIC, chamfer_tenths: 10 }, at(34, 4), sink);
    assert.deepEqual(
      result.assumptions.map(item => item.code),
      ['thread-chamfer'],
    );
  });
});

// The same thread by the successor's words, worked out by hand; X values halved from diameters.
const LINE: ThreadLine = {
  z: -16,
  pitch_mm: 1.5,
  peak_mm: -2,
  first_mm: 0.2,
  depth_mm: 0.92,
  degression: 1.5,
  slide_deg: 29.5,
  spring_passes: 1,
};

describe('threading from a drive line', () => {
  it('takes J n^(1/R), then K and the spring pass', () => {
    const diameters = threadLineDepths_mm({ ...LINE, first_mm: 0.4, depth_mm: 1.84 });
    assert.deepEqual(
      rounded(diameters),
      [0.4, 0.635, 0.832, 1.008, 1.17, 1.321, 1.464, 1.6, 1.731, 1.84, 1.84],
    );
  });

  it('ends every pass at Z', () => {
    const { events, sink } = lathe([30, 3]);
    const result = expandThreadLine(LINE, at(30, 3), sink);
    expectLathe(
      events,
      `r 30 2.886845; r 25.6 2.886845; h 25.6 -16; r 30 -16
       r 30 2.820378; r 25.36504 2.820378; h 25.36504 -16; r 30 -16
       r 30 2.764629; r 25.167966 2.764629; h 25.167966 -16; r 30 -16
       r 30 2.714868; r 24.992063 2.714868; h 24.992063 -16; r 30 -16
       r 30 2.669134; r 24.830393 2.669134; h 24.830393 -16; r 30 -16
       r 30 2.626372; r 24.679229 2.626372; h 24.679229 -16; r 30 -16
       r 30 2.585933; r 24.536278 2.585933; h 24.536278 -16; r 30 -16
       r 30 2.547382; r 24.4 2.547382; h 24.4 -16; r 30 -16
       r 30 2.510409; r 24.269301 2.510409; h 24.269301 -16; r 30 -16
       r 30 2.479489; r 24.16 2.479489; h 24.16 -16; r 30 -16
       r 30 2.479489; r 24.16 2.479489; h 24.16 -16; r 30 -16`,
    );
    expectLengths(events, { rapid: 244.150968, thread: 205.084928 });
    assert.deepEqual(result.position, at(30, -16));
  });

  it('can move the whole line with the slide', () => {
    const { events, sink } = lathe([30, 3]);
    // tan 45 = 1: pass of 0.2 of 0.6 starts at 2.8 and ends 0.4 before the end.
    const thread = { ...LINE, first_mm: 0.2, depth_mm: 0.6, degression: 1, slide_deg: 45, spring_passes: 0 };
    expandThreadLine(thread, at(30, 3), sink, true);
    expectLathe(
      events,
      `r 30 2.8; r 25.6 2.8; h 25.6 -15.6; r 30 -15.6
       r 30 2.6; r 25.2 2.6; h 25.2 -15.8; r 30 -15.8
       r 30 2.4; r 24.8 2.4; h 24.8 -16; r 30 -16`,
    );
  });

  it('tapers in and out, internal', () => {
    const { events, sink } = lathe([20, 1]);
    const thread = {
      ...LINE,
      z: -10,
      peak_mm: 0.5,
      first_mm: 1,
      depth_mm: 1,
      slide_deg: 0,
      spring_passes: 0,
      taper_length_mm: 2,
      taper_ends: 3,
    };
    expandThreadLine(thread, at(20, 1), sink);
    expectLathe(events, 'r 21 1; h 23 -1; h 23 -8; h 21 -10; r 20 -10');
  });
});

describe('synchronised moves', () => {
  it('threads in one pass and taps in and out', () => {
    const single = lathe([40, -16]);
    expandSinglePass(at(40, -5), 1.5, at(40, -16), single.sink);
    expectLathe(single.events, 'h 40 -5');
    const tap = lathe([0, 5]);
    expandRigidTap(at(0, -10), 1, at(0, 5), tap.sink);
    expectLathe(tap.events, 't 0 -10; reverse; t 0 5; reverse');
  });
});

describe('words of lathe cycles', () => {
  it('tells the forms of a block apart', () => {
    const letters = (text: string) => new Set(text);
    assert.equal(roughForm(letters('UR'), false), 'first-block');
    assert.equal(roughForm(letters('PQUWF'), true), 'second-block');
    assert.equal(roughForm(letters('PQUWDF'), false), 'one-block');
    assert.equal(pointForm(letters('R'), false), 'first-block');
    assert.equal(pointForm(letters('PQR'), false), 'first-block');
    assert.equal(pointForm(letters('XZPQF'), true), 'second-block');
    assert.equal(pointForm(letters('XZKDFA'), false), 'one-block');
  });

  it('reads whole numbers as least increments', () => {
    assert.equal(latheCycleLength_mm(500, false, false), 0.5);
    assert.equal(latheCycleLength_mm(0.92, true, false), 0.92);
    assert.ok(Math.abs(latheCycleLength_mm(3000, false, true) - 7.62) < 1e-12);
  });

  it('splits the six digits of a thread', () => {
    assert.deepEqual(splitThreadSetup(20060), { finish_passes: 2, chamfer_tenths: 0, angle_deg: 60 });
    assert.deepEqual(splitThreadSetup(11529), { finish_passes: 1, chamfer_tenths: 15, angle_deg: 29 });
    assert.equal(splitThreadSetup(1.5), undefined);
    assert.equal(splitThreadSetup(1_000_000), undefined);
  });
});
