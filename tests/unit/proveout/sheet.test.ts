import assert from 'node:assert/strict';
import fc from 'fast-check';
import { proveoutSheet } from '../../../server/src/proveout/sheet.ts';
import { proveoutHtml } from '../../../server/src/report/proveout-html.ts';
import { proveoutJson } from '../../../server/src/report/proveout-json.ts';
import { proveoutText } from '../../../server/src/report/proveout-text.ts';
import type { Review } from '../../../server/src/review/review.ts';
import { FILE, fixtureReview, JOBS, reviewOf } from '../report/jobs.ts';

interface Json {
  tools: {
    number: number;
    first_contact_percent?: number;
    why_not?: string;
    reasons: { percent: number; why: string }[];
    first_contact?: { line: number; position_mm?: [number, number, number]; by: string };
    steps_percent: number[];
    if_not: string;
    watch: { line: number; why: string }[];
  }[];
  offsets: { name: string; expected: string }[];
  stops: { line: number; code: string; why?: string }[];
  restart: { tool?: number; line: number; first_cut_line: number; restore: string[]; stated: string[] }[];
}

const jsonOf = (review: Review): Json =>
  JSON.parse(JSON.stringify(proveoutJson(review, proveoutSheet(review))));
const textOf = (review: Review): string => proveoutText(review, proveoutSheet(review), 'job.nc');
const htmlOf = (review: Review): string => proveoutHtml(review, proveoutSheet(review), FILE);

describe('the sheet for the machine', () => {
  for (const name of JOBS) {
    const review = fixtureReview(name);
    const json = jsonOf(review);

    it(`of ${name} has the shape that scripts rely on`, () => {
      assert.ok(json.tools.length > 0);
      for (const tool of json.tools) {
        assert.ok(Number.isInteger(tool.number));
        assert.ok(
          Array.isArray(tool.reasons) && Array.isArray(tool.steps_percent) && Array.isArray(tool.watch),
        );
        for (const { percent, why } of tool.reasons) assert.ok(percent > 0 && why !== '');
        for (const { line, why } of tool.watch)
          assert.ok(line >= 1 && line <= review.program.lineCount && why !== '');
        const at = tool.first_contact;
        assert.ok(at && at.line >= 1 && at.line <= review.program.lineCount);
        if (at.position_mm) assert.ok(at.position_mm.length === 3 && at.position_mm.every(Number.isFinite));
      }
    });

    it(`of ${name} starts each tool at its sum, held in 50 to 70, and steps up to 100`, () => {
      const step = review.program.machine?.override_step_percent?.value ?? 10;
      for (const tool of json.tools) {
        if (tool.first_contact_percent === undefined) {
          assert.ok(tool.why_not);
          assert.deepEqual(tool.steps_percent, []);
          continue;
        }
        const sum = tool.reasons.reduce((left, { percent }) => left - percent, 70);
        const held = Math.min(70, Math.max(50, sum));
        assert.equal(tool.first_contact_percent, Math.floor(held / step) * step);
        assert.equal(tool.steps_percent[0], tool.first_contact_percent);
        assert.equal(tool.steps_percent.at(-1), 100);
      }
    });

    it(`of ${name} says the same in text, page and JSON`, () => {
      const text = textOf(review);
      const page = htmlOf(review);
      for (const tool of json.tools) {
        const start =
          tool.first_contact_percent === undefined ? 'no figure' : `feed ${tool.first_contact_percent} %`;
        assert.ok(text.includes(start) && page.includes(start));
        assert.ok(
          text.includes(`line ${tool.first_contact?.line},`) &&
            page.includes(`line ${tool.first_contact?.line},`),
        );
      }
      for (const words of [
        'Control offsets, wear and parameters are not seen by this review.',
        'Starting values only.',
      ])
        assert.ok(text.includes(words) && page.includes(words));
      assert.match(text, /single block[\s\S]*distance-to-go[\s\S]*scale[\s\S]*hand on feed hold/);
    });
  }

  it('stops short of the work by an inch or 25 mm', () => {
    assert.match(textOf(fixtureReview('bracket')), /Stop 1 in above/);
    assert.match(textOf(fixtureReview('valve')), /Stop 25 mm above/);
    assert.match(textOf(fixtureReview('bushing')), /Stop 25 mm off/);
  });

  it('names feed before spindle, with speed and percent, and no override where feed and spindle are tied', () => {
    const [, mill, , tap] = jsonOf(fixtureReview('bracket')).tools;
    assert.equal(mill.if_not, 'squeal: feed down 10 % first, then spindle 7200 rev/min (90 %)');
    assert.equal(tap.if_not, 'no override here: run it above the part first');
    assert.equal(tap.first_contact_percent, undefined);
    const [turn] = jsonOf(fixtureReview('bushing')).tools;
    assert.match(turn.if_not, /^squeal: spindle override 90 %; .*follows by itself$/);
  });

  it('goes down to the end of the window when the speed is over it', () => {
    // 19.2 m/min against 17: 17/19.2 = 88.5 %, down to the next 5.
    assert.equal(
      jsonOf(fixtureReview('valve')).tools[1].if_not,
      'squeal: feed down 15 % first, then spindle 770 rev/min (85 %)',
    );
  });

  it('gives no figure while an error stands for the tool', () => {
    const review = reviewOf(
      'G21 G17 G90 G94\nT1 M6 (10 MM END MILL 3 FLUTE)\nG54 G43 H1\nS1000 M3\nG0 X0 Y0 Z1.\nG1 Z-1.\nM30\n',
    );
    assert.ok(review.findings.some(({ code }) => code === 'no-feed'));
    const [tool] = jsonOf(review).tools;
    assert.equal(tool.first_contact_percent, undefined);
    assert.match(tool.why_not ?? '', /^no starting figure while an error stands/);
    assert.ok(tool.watch.some(({ why }) => why.startsWith('error: ')));
  });

  it('lists measuring stops with their comments, each once', () => {
    const program =
      'G21 G90 G94\nT1 M6\nS500 M3\nG1 X1. F100\nM0 (MEASURE BORE 20 H7)\n(TURN THE PART)\nM1\nG1 X2.\nM30\n';
    const stops = jsonOf(reviewOf(program)).stops.map(({ line, code, why }) => [line, code, why]);
    assert.deepEqual(stops, [
      [5, 'M0', 'MEASURE BORE 20 H7'],
      [7, 'M1', 'TURN THE PART'],
    ]);
  });

  describe('restart', () => {
    const cases: [name: string, program: string, kind: 'mill' | 'lathe', restore: string, stated: string][] =
      [
        [
          'all from the head',
          'G21 G17 G40 G90 G94 G54\nT1 M6\nS500 M3\nG43 H1 Z5. M8\nG1 X1. F100\nM30',
          'mill',
          'G21 G17 G90 G94 G40 G54',
          'T1 G43 H1 S500 M3 M8 F100',
        ],
        [
          'all at the tool',
          'G40\nT1 M6\nG20 G17 G40 G90 G94 G55\nS500 M3\nG43 H1 Z1. M8\nG1 X1. F10.\nM30',
          'mill',
          '',
          'T1 G20 G17 G90 G94 G40 G55 G43 H1 S500 M3 M8 F10',
        ],
        [
          'spindle and coolant left running',
          'G21 G17 G40 G90 G94 G54 S500 M3 M8 F100\nT1 M6\nG43 H1 Z5.\nG1 X1.\nM30',
          'mill',
          'G21 G17 G90 G94 G40 G54 S500 M3 M8 F100',
          'T1 G43 H1',
        ],
        [
          'incremental',
          'G21 G17 G40 G94 G54\nG91\nT2 M6\nS500 M3\nG43 H2 Z5.\nG1 X1. F100\nM30',
          'mill',
          'G21 G17 G91 G94 G40 G54',
          'T2 G43 H2 S500 M3 F100',
        ],
      ];
    for (const [name, program, kind, restore, stated] of cases)
      it(`with ${name}`, () => {
        const [point] = jsonOf(reviewOf(program, '{ "machine": { "dialect": "iso6983" } }', kind)).restart;
        assert.equal(point.restore.join(' '), restore);
        assert.equal(point.stated.join(' '), stated);
      });

    it('of the second use of a tool stands at its own tool change', () => {
      const program = 'G21 G17 G90 G94\nT1 M6\nS500 M3\nG1 X1. F100\nT2 M6\nG1 X2.\nT1 M6\nG1 X3.\nM30';
      assert.deepEqual(
        jsonOf(reviewOf(program)).restart.map(({ tool, line, first_cut_line }) => [
          tool,
          line,
          first_cut_line,
        ]),
        [
          [1, 2, 4],
          [2, 5, 6],
          [1, 7, 8],
        ],
      );
    });

    it('on a lathe names the clamp of constant surface speed', () => {
      const program = 'G21 G18 G40 G99\nG50 S2500\nG96 S200 M3\nT0101\nG0 X50. Z2.\nG1 Z-10. F0.2\nM30';
      const [point] = jsonOf(
        reviewOf(program, '{ "machine": { "kind": "lathe", "dialect": "lathe-a" } }'),
      ).restart;
      assert.equal(point.restore.join(' '), 'G21 G18 G99 G40 G50 S2500 G96 S200 M3');
      assert.equal(point.stated.join(' '), 'T1 F0.2');
    });
  });

  it('says what a radius offset holds only where the sheet says it', () => {
    const program = 'G21 G17 G90 G94\nT1 M6\nS500 M3\nG0 X0 Y0\nG41 D7 G1 X5. F100\nY20.\nG40 X0\nM30';
    const offset = (sheet?: string) =>
      jsonOf(reviewOf(program, sheet)).offsets.find(({ name }) => name === 'D7')?.expected;
    const tools = '"units": "mm", "tools": { "1": { "kind": "end-mill", "diameter": 10 } }';
    assert.equal(offset(), 'radius or wear of T1: the sheet does not say which');
    assert.equal(offset(`{ ${tools}, "machine": { "compensation": "part-edge" } }`), 'radius of T1, 5 mm');
    assert.equal(
      offset(`{ ${tools}, "machine": { "compensation": "wear-only" } }`),
      'wear alone of T1, near 0',
    );
  });

  it('never throws and stays bounded, whatever the program', () => {
    const word = fc.constantFrom(
      'G1',
      'X1.',
      'T1 M6',
      'G83',
      'Z-2.',
      'R1.',
      'G41',
      'M0',
      'G84',
      'F1.',
      'G96',
      'S200',
      'T0303',
      '\n',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.array(word, { maxLength: 60 }).map(all => all.join(' ')),
          fc.string({ unit: 'binary', maxLength: 200 }),
        ),
        text => {
          const review = reviewOf(text);
          const json = JSON.stringify(jsonOf(review));
          assert.doesNotMatch(json, /NaN|Infinity|undefined|null/);
          assert.doesNotMatch(textOf(review), /NaN|Infinity|undefined/);
          assert.doesNotMatch(htmlOf(review), /NaN|Infinity|undefined/);
        },
      ),
      { numRuns: 120, seed: 11 },
    );
  });

  it('lists at most so many places of a program that changes tools all the time', () => {
    const uses = Array.from({ length: 400 }, (_, i) => `T${i + 1} M6\nS500 M3\nG1 X${i}. F100\nM0`);
    const review = reviewOf(`G21 G90 G94\n${uses.join('\n')}\nM30`);
    const json = jsonOf(review);
    assert.ok(json.restart.length <= 60 && json.stops.length <= 40);
    assert.match(textOf(review), /340 more uses are not listed/);
    assert.match(htmlOf(review), /More stops than are listed/);
  });
});
