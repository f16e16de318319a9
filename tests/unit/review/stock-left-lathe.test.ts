/** A second operation on the lathe: what the first leaves, turned round. Volumes are those of cylinders. */
import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import { factsJson } from '../../../server/src/report/json.ts';
import type { Review } from '../../../server/src/review/review.ts';

const HEAD = 'G21 G18 G40 G99\n';
const TURN = 'T0101\nG97 S1000 M3\n';
const BORE = 'T0202\nG97 S1000 M3\n';
const PART = 'T0303\nG97 S1000 M3\n';
const TOOLS = `"tools": {
  "1": { "kind": "turn", "nose_radius": 0, "edge_angle_deg": 90, "point_angle_deg": 55, "substrate": "carbide" },
  "2": { "kind": "bore-bar", "nose_radius": 0, "edge_angle_deg": 90, "substrate": "carbide" },
  "3": { "kind": "part-off", "width": 3, "substrate": "carbide" } }`;
const sheet = (stock: string, tools = TOOLS) =>
  `{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" },
  "workpiece": { "material": "C45", "stock": ${stock} }, ${tools} }`;
/** A tube of 50 by 20, 80 long, its face at Z1. */
const TUBE = '{ "shape": "bar", "diameter": 50, "bore": 20, "length": 80, "face": 1 }';

/** Faces to Z0, 46 over 40 and 40 over 20 long, a bore of 24 over 30 deep; parted off at Z-60 by a blade that takes 3. */
const FIRST = `${HEAD}${TURN}G0 X54. Z0.
G1 X18. F0.2
G0 X46. Z2.
G1 Z-40. F0.2
G0 X52.
Z2.
X40.
G1 Z-20. F0.2
G0 X52.
Z50.
${BORE}G0 X24. Z2.
G1 Z-30. F0.1
G0 X18.
Z50.
`;
const PARTED = `${FIRST}${PART}G0 X60.\nZ-63.\nG1 X18. F0.1\nG0 X60.\nZ50.\nM30\n`;
/** The other end: faced to Z0, 44 over 30 long, a bore of 22 over 10 deep. The turning stands in lines 7 and 8. */
const SECOND = `${HEAD}${TURN}G0 X54. Z0.
G1 X18. F0.2
G0 X44. Z2.
G1 Z-19. F0.2
Z-30.
G0 X52.
Z50.
${BORE}G0 X22. Z2.
G1 Z-10. F0.1
G0 X18.
Z50.
M30
`;
const TURNED = '{ "from": "op10.nc", "turn": "other-end", "face": 1 }';

const FOLDER: Record<string, string> = {
  'op10.nc': PARTED,
  'op10.setup.json': sheet(TUBE),
  'whole.nc': `${FIRST}M30\n`,
  'whole.setup.json': sheet(TUBE),
  'long.nc': `${FIRST}M30\n`,
  'long.setup.json': sheet('{ "shape": "bar", "diameter": 50, "bore": 20, "face": 1 }'),
  'bare.nc': PARTED,
  'assumed.nc': PARTED,
  'assumed.setup.json': sheet(TUBE).replace(/"stock": \{.*\}(?= \},)/, '"finish_ra": "1.6 um"'),
  'unknown.nc': PARTED,
  'unknown.setup.json': sheet(TUBE, TOOLS.replace('"width": 3, ', '')),
  'mill.nc': 'G21 G17 G90 G94 G54\nT1 M6\nS4000 M3\nG0 X0 Y0 Z5\nG1 Z-1 F100\nG0 Z5\nM30\n',
  'mill.setup.json':
    '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "stock": { "shape": "block", "size": [10, 10, 10], "zero": [0, 0, 10] } }, "tools": { "1": { "kind": "end-mill", "diameter": 4 } } }',
};

function review(program: string, stock: string, name = 'op20', tools = TOOLS): Review {
  return openJob({
    bytes: new TextEncoder().encode(program),
    name: `${name}.nc`,
    files: { sheet: { path: `${name}.setup.json`, text: sheet(stock, tools) } },
    cut: true,
    readBeside: file => (FOLDER[file] === undefined ? undefined : new TextEncoder().encode(FOLDER[file])),
  }).review;
}

const depthAt = (of: Review, line: number): number => Number(factsJson(of, line - 1)?.axial_depth_mm);

/** What all moves of a program take out, mm3. */
function removed({ program }: Review): number {
  let sum = 0;
  const cursor = program.reading.cursor();
  while (cursor.next()) {
    const found = program.cuts?.figures(cursor);
    if (found) sum += found.removed_mm3;
  }
  return sum;
}

function near(value: number, exact: number, share: number): void {
  assert.ok(Math.abs(value - exact) <= Math.abs(exact) * share, `${value}, exact ${exact}`);
}

/** Volume of a ring of two diameters, mm3. */
const ring = (outer: number, inner: number, length: number) =>
  (Math.PI / 4) * (outer ** 2 - inner ** 2) * length;

/** What the sheet of the second operation is told, with the text that it stands under. */
function atSheet(of: Review, stock: string): string[] {
  const lines = sheet(stock).split('\n');
  return of.findings
    .filter(({ file }) => file === 'op20.setup.json')
    .map(({ line, column, end_column, message }) => `${lines[line].slice(column, end_column)}: ${message}`);
}

/** The second operation cannot start: what is said where in its sheet, and that no depth is shown. */
function refused(stock: string, at: string, why: RegExp): void {
  const of = review(SECOND, stock);
  assert.ok(Number.isNaN(depthAt(of, 7)));
  const told = atSheet(of, stock);
  assert.equal(told.length, 1, told.join('\n'));
  assert.ok(told[0].startsWith(`${at}: `), told[0]);
  assert.match(told[0], why);
  assert.match(of.not_checked.join('\n'), why);
}

describe('stock that another lathe program leaves', () => {
  it('turned round: both operations together take the bar less the finished part', () => {
    const first = review(PARTED, TUBE, 'op10');
    const second = review(SECOND, TURNED);
    // op 2 from its face: 22 over 10 deep, 44 over 30 long, 46 over 9 (all 60 - 1 less 20 at the other end), 40 over 20
    const part = ring(44, 22, 10) + ring(44, 20, 19) + ring(44, 24, 1) + ring(46, 24, 9) + ring(40, 24, 20);
    near(removed(first) + removed(second), ring(50, 20, 64) - part, 0.001);
  });

  it('turned round: depths are those of the steps that the first operation left', () => {
    const of = review(SECOND, TURNED);
    // 50 to 44 as far as the first operation did not come, then 46 to 44
    near(depthAt(of, 7), 3, 1e-6);
    near(depthAt(of, 8), 1, 1e-6);
    assert.deepEqual(atSheet(of, TURNED), []);
    assert.equal(of.program.cuts?.assumed, false);
  });

  it('turned round and not parted off: the chuck end of the bar is the new face', () => {
    const of = review(SECOND, TURNED.replace('op10', 'whole'));
    // 79 long: 46 begins at Z1 - 79 + 40
    near(depthAt(of, 7), 3, 1e-6);
    near(depthAt(of, 8), 3, 1e-6);
  });

  it('not turned: goes on where the first operation stopped, or with its face elsewhere', () => {
    const more = `${HEAD}${TURN}G0 X39. Z8.\nG1 Z-20. F0.2\nX43.\nZ-25.\nG0 X52.\nZ50.\nM30\n`;
    const stays = review(more, '{ "from": "whole.nc" }');
    near(depthAt(stays, 5), 0.5, 1e-6);
    near(depthAt(stays, 7), 1.5, 1e-6);
    const lifted = review(more, '{ "from": "whole.nc", "face": 5 }');
    // the step of 40 ends at Z-15 now
    near(depthAt(lifted, 7), 1.5, 1e-6);
    near(removed(lifted), ring(40, 39, 20) + ring(46, 39, 5) + ring(46, 43, 5), 0.001);
  });

  it('says at its place in the sheet what is missing or wrong', () => {
    refused(
      '{ "from": "op05.nc", "turn": "other-end", "face": 1 }',
      '"op05.nc"',
      /stock is what op05\.nc leaves, and that program cannot be read here/,
    );
    refused('{ "from": "bare.nc" }', '"bare.nc"', /it has no setup sheet \(bare\.setup\.json\)/);
    refused('{ "from": "mill.nc" }', '"mill.nc"', /that program is for a mill: a lathe program cannot start/);
    refused('{ "from": "op20.nc" }', '"op20.nc"', /cannot be read here/);
    refused(
      '{ "from": "op10.nc", "turn": "other-end" }',
      '"other-end"',
      /does not say at which Z the end face of the turned part is \("face"\)/,
    );
    refused('{ "from": "op10.nc", "turn": "flip-x" }', '"flip-x"', /on a lathe say "other-end"/);
    refused('{ "from": "op10.nc" }', '"op10.nc"', /whether the piece or the bar goes on is not known/);
    refused(
      '{ "from": "long.nc", "turn": "other-end", "face": 1 }',
      '"long.nc"',
      /its sheet does not state how long the bar is/,
    );
  });

  it('says on a mill that "face" and "other-end" are for lathes', () => {
    const mill = (stock: string) => {
      const text = FOLDER['mill.setup.json'].replace(/"stock": \{.*?\}/, `"stock": ${stock}`);
      const { review: of } = openJob({
        bytes: new TextEncoder().encode(FOLDER['mill.nc']),
        name: 'op20.nc',
        files: { sheet: { path: 'op20.setup.json', text } },
        cut: true,
        readBeside: file => new TextEncoder().encode(FOLDER[file]),
      });
      return of.findings.filter(({ file }) => file !== undefined).map(({ message }) => message);
    };
    assert.deepEqual(mill('{ "from": "mill.nc" }'), []);
    assert.match(mill('{ "from": "mill.nc", "face": 1 }').join(), /on a mill "zero" of the work offset does/);
    assert.match(mill('{ "from": "mill.nc", "turn": "other-end" }').join(), /on a mill say "flip-x"/);
    assert.match(mill('{ "from": "op10.nc" }').join(), /is for a lathe: a mill program cannot start from it/);
  });

  it('is assumed where the first operation rests on an assumption or is not followed, and says why', () => {
    const rests = review(SECOND, TURNED.replace('op10', 'assumed'));
    assert.equal(rests.program.cuts?.assumed, true);
    assert.match(
      rests.not_checked.join('\n'),
      /what assumed\.nc leaves rests on a stock that its sheet does/,
    );
    const unknown = review(SECOND, TURNED.replace('op10', 'unknown'));
    assert.equal(unknown.program.cuts?.assumed, true);
    assert.match(unknown.not_checked.join('\n'), /not every cut of unknown\.nc can be followed/);
    assert.match(
      unknown.not_checked.join('\n'),
      /unknown\.nc: what T3 cuts: width of the blade is not known/,
    );
  });

  it('is known to the rules that look at the bar: the jaws stand behind its new face', () => {
    const held = (overhang: number) => {
      const of = review(SECOND, `${TURNED} }, "workholding": { "overhang": ${overhang}`);
      return of.findings.filter(({ code }) => code === 'chuck-reached').map(({ line }) => line + 1);
    };
    assert.deepEqual(held(32), []);
    assert.deepEqual(held(30), [8]);
  });

  it('may stand under the work offset', () => {
    const text = sheet(TUBE).replace(/"workpiece": \{.*\},/, `"setups": { "G54": { "stock": ${TURNED} } },`);
    const of = openJob({
      bytes: new TextEncoder().encode(SECOND),
      name: 'op20.nc',
      files: { sheet: { path: 'op20.setup.json', text } },
      cut: true,
      readBeside: file => new TextEncoder().encode(FOLDER[file]),
    }).review;
    near(depthAt(of, 7), 3, 1e-6);
  });

  it('goes on through three operations', () => {
    FOLDER['op20.nc'] = SECOND;
    FOLDER['op20.setup.json'] = sheet(TURNED);
    const third = `${HEAD}${TURN}G0 X38. Z2.\nG1 Z-20. F0.2\nG0 X52.\nZ50.\nM30\n`;
    const of = review(third, '{ "from": "op20.nc", "turn": "other-end", "face": 0 }', 'op30');
    near(depthAt(of, 5), 1, 1e-6);
    delete FOLDER['op20.nc'];
  });
});
