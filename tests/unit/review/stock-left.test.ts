import assert from 'node:assert/strict';
import { openJob } from '../../../server/src/job/open-job.ts';
import { factsJson } from '../../../server/src/report/json.ts';

const SLOT = (depth: number) =>
  `G21 G17 G90 G94 G54\nT1 M6\nS4000 M3\nG0 X-10 Y20 Z5\nG0 Z-${depth}\nG1 X110 F800\nG0 Z5\nM30\n`;
const SHEET = (stock: string, setups = '') =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "C45", "stock": ${stock} }, ${setups}
  "tools": { "1": { "kind": "end-mill", "diameter": 10, "teeth": 4, "substrate": "carbide" } } }`;

const FOLDER: Record<string, string> = {
  'op10.nc': SLOT(4),
  'op10.setup.json': SHEET('{ "shape": "block", "size": [100, 40, 20], "zero": [0, 0, 20] }'),
  'bare.nc': SLOT(4),
  'first/op10.nc': SLOT(4),
  'first/op10.setup.json': SHEET('{ "from": "raw.nc" }'),
  'first/raw.nc': SLOT(3),
  'first/raw.setup.json': SHEET('{ "shape": "block", "size": [100, 40, 20], "zero": [0, 0, 20] }'),
  'round.nc': SLOT(4),
  'round.setup.json': SHEET('{ "from": "round.nc" }'),
};

/** Depth of the slot at line 6, and what was not checked, when the stock starts from another program. */
function slotAfter(
  stock: string,
  depth: number,
  setups = '',
): { depth: unknown; gaps: string; at_sheet: string[] } {
  const { review } = openJob({
    bytes: new TextEncoder().encode(SLOT(depth)),
    name: 'op20.nc',
    files: { sheet: { path: 'op20.setup.json', text: SHEET(stock, setups) } },
    cut: true,
    readBeside: name => (FOLDER[name] === undefined ? undefined : new TextEncoder().encode(FOLDER[name])),
  });
  const at_sheet = review.findings
    .filter(({ file }) => file === 'op20.setup.json')
    .map(({ message }) => message);
  return { depth: factsJson(review, 5)?.axial_depth_mm, gaps: review.not_checked.join('\n'), at_sheet };
}

describe('stock that another program leaves', () => {
  it('is cut from where that program stopped', () => {
    const { depth } = slotAfter('{ "from": "op10.nc" }', 6);
    assert.ok(Math.abs(Number(depth) - 2) < 0.02, String(depth));
  });

  it('turned over shows its uncut side, with zero where the sheet puts it', () => {
    const { depth, gaps } = slotAfter(
      '{ "from": "op10.nc", "turn": "flip-x" }',
      6,
      '"setups": { "G54": { "zero": [0, 0, 20] } },',
    );
    assert.ok(Math.abs(Number(depth) - 6) < 0.02, `${depth} ${gaps}`);
  });

  it('says what is missing: the zero of a turned part, the program, its sheet', () => {
    assert.match(
      slotAfter('{ "from": "op10.nc", "turn": "flip-x" }', 6).gaps,
      /where zero sits on the turned part/,
    );
    const none = slotAfter('{ "from": "op05.nc" }', 6);
    assert.equal(none.depth, undefined);
    assert.match(none.gaps, /op05\.nc leaves, and that program cannot be read here/);
    assert.deepEqual(none.at_sheet, [
      'The stock is what op05.nc leaves, and that program cannot be read here.',
    ]);
    assert.deepEqual(slotAfter('{ "from": "bare.nc" }', 6).at_sheet, [
      'The stock is what bare.nc leaves, and it has no setup sheet (bare.setup.json).',
    ]);
  });

  it('may lie in a folder below, from where it names its own', () => {
    const { depth, at_sheet } = slotAfter('{ "from": "first/op10.nc" }', 6);
    assert.ok(Math.abs(Number(depth) - 2) < 0.02, String(depth));
    assert.deepEqual(at_sheet, []);
  });

  it('ends when programs start from each other', () => {
    assert.equal(slotAfter('{ "from": "round.nc" }', 6).depth, undefined);
  });
});
