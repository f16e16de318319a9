/** What of a lathe tool's holder is known, and what is said where it is not. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { openJob } from '../../../server/src/job/open-job.ts';
import { holderBody } from '../../../server/src/review/cuts/holder-body.ts';
import type { Review } from '../../../server/src/review/review.ts';
import { type LatheBody, latheHits } from '../../../server/src/stock/lathe-keep-out.ts';

const JAWS = '{ "what": "jaw", "box": [[25, 0, -60], [70, 0, -30]] }';
const PROGRAM = 'G21 G18 G40 G99\nT0101\nG97 S1000 M3\nG0 X46. Z2.\nG1 Z-20. F0.2\nG0 X60.\nZ2.\nM30\n';

function review(tool: string, keep_out = JAWS, program = PROGRAM): Review {
  const text = `{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" },
    "workpiece": { "stock": { "shape": "bar", "diameter": 50, "length": 60, "face": 1 } },
    "setups": { "G54": { "keep_out": [${keep_out}] } }, "tools": { "1": ${tool} } }`;
  return openJob({
    bytes: new TextEncoder().encode(program),
    name: 'a.nc',
    files: { sheet: { path: 'a.setup.json', text } },
    cut: true,
  }).review;
}

const body = (tool: string) => holderBody(review(tool).program.tool(1));
const TURN = '"kind": "turn", "nose_radius": 0.4, "edge_angle_deg": 95';
/** Said of the holder: severity and message. */
const said = (of: Review) =>
  of.findings.filter(({ code }) => code === 'holder-hit').map(({ severity }) => severity);
const gaps = (of: Review) => of.not_checked.filter(what => what.includes('holder'));

describe('holders of lathe tools', () => {
  it('says what is missing where there is something to run into, and nothing where there is not', () => {
    const NOT_KNOWN =
      'the holder (holder_box) of T1 is not known, so not checked: holder runs into chuck or tailstock';
    assert.deepEqual(gaps(review(`{ ${TURN} }`)), [NOT_KNOWN]);
    assert.deepEqual(gaps(review('{ "kind": "part-off", "width": 3 }')), [NOT_KNOWN]);
    assert.deepEqual(gaps(review(`{ ${TURN} }`, '')), []);
    assert.deepEqual(gaps(review(`{ ${TURN}, "holder": "PCLNR2525M12" }`)), []);
  });

  it('takes the box as stated', () => {
    assert.deepEqual(body(`{ ${TURN}, "holder_box": { "z": ["-1/2 in", 13], "x": [40, 120] } }`), {
      z_mm: [-12.7, 13],
      x_mm: [40, 120],
    });
  });

  it('takes the shank by its designation, the way that the tip says', () => {
    const shank = (holder: string, tip = '') => {
      const { z_mm, assumed } = body(`{ ${TURN}, "holder": "${holder}"${tip} }`) ?? {};
      return z_mm && [...z_mm, assumed !== undefined];
    };
    // f of 32 for a shank of 25, 22 for 75 degrees, the middle for a neutral one (ISO 5608, from memory)
    assert.deepEqual(shank('PCLNR2525M12'), [7, 32, true]);
    assert.deepEqual(shank('PSBNR2525M12'), [-3, 22, true]);
    assert.deepEqual(shank('MVVNN2525M16'), [-12.5, 12.5, true]);
    assert.deepEqual(shank('PCLNL2525M12', ', "tip_direction": 4'), [-32, -7, true]);
    assert.equal(shank('PCLNL2525M12'), undefined);
    assert.equal(shank('S25T-SCLCR09'), undefined);
  });

  it('reports a stated box as an error, what is taken for granted as information', () => {
    assert.deepEqual(said(review(`{ ${TURN}, "holder_box": { "z": [-12, 13], "x": [40, 120] } }`)), [
      'error',
    ]);
    assert.deepEqual(said(review(`{ ${TURN}, "holder": "MVVNN2525M16" }`)), ['information']);
  });

  it('says nothing of a driven drill beside the axis, whose holder may lie along X', () => {
    const tool = '{ "kind": "drill", "diameter": 6, "stickout": 20, "holder_diameter": 60 }';
    const at = (x: number) =>
      `G21 G18 G40 G98\nT0101\nG97 S1000 M3\nG0 X${x}. Z5.\nG1 Z-55. F100.\nG0 Z5.\nM30\n`;
    assert.deepEqual(said(review(tool, JAWS, at(0))), ['error']);
    assert.deepEqual(said(review(tool, JAWS, at(20))), []);
  });

  it('says nothing twice: where the edge has run into it before', () => {
    const deep = PROGRAM.replace('Z-20', 'Z-40');
    const of = review(`{ ${TURN}, "holder_box": { "z": [2, 13], "x": [4, 120] } }`, JAWS, deep);
    assert.deepEqual(
      of.findings.filter(({ severity }) => severity === 'error').map(({ code }) => code),
      ['keep-out-hit'],
    );
  });

  it('a box without one of its sides is said at the sheet and does not count', () => {
    const of = review(`{ ${TURN}, "holder_box": { "z": [-12, 13] } }`);
    const told = of.findings.filter(({ file }) => file !== undefined).map(({ message }) => message);
    assert.deepEqual(told, ['tools.1.holder_box needs "z" and "x", from and to of each.']);
    assert.deepEqual(said(of), []);
  });

  it('meets a box where sampled points of the way do', () => {
    const span = (least: number, most: number) =>
      fc
        .tuple(fc.integer({ min: least, max: most }), fc.integer({ min: 1, max: 30 }))
        .map(([from, length]): [number, number] => [from, from + length]);
    const point = fc.tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: -20, max: 80 }));
    fc.assert(
      fc.property(
        point,
        point,
        span(-30, 30),
        span(-40, 40),
        span(0, 60),
        span(-60, 30),
        (from, to, z, x, r, b) => {
          const holder: LatheBody = { z_mm: z, x_mm: x };
          const box = { what: 'jaw', low: [r[0], 0, b[0]], high: [r[1], 0, b[1]] } as const;
          const [hit] = latheHits(from, to, holder, [box]);
          let near = Number.POSITIVE_INFINITY;
          const apart = (a: readonly [number, number], c: readonly [number, number]) =>
            Math.max(a[0] - c[1], c[0] - a[1]);
          for (let k = 0; k <= 400; k++) {
            const tz = from[0] + ((to[0] - from[0]) * k) / 400;
            const tx = from[1] + ((to[1] - from[1]) * k) / 400;
            const along = apart([tz + z[0], tz + z[1]], b);
            const wide: readonly [number, number] = [tx + x[0], tx + x[1]];
            const out = Math.min(apart(wide, r), x[0] < 0 ? apart(wide, [-r[1], -r[0]]) : Infinity);
            near = Math.min(near, Math.max(along, out));
          }
          // steps of the sampling are at most 0.4 mm
          if (hit) assert.ok(near < 0.4, `${near} mm apart, yet a hit`);
          else assert.ok(near > -0.4, `${near} mm deep, yet no hit`);
        },
      ),
      { numRuns: 300, seed: 31 },
    );
  });
});
