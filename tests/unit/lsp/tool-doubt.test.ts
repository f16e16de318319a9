import assert from 'node:assert/strict';
import { hintLines } from '../../../server/src/lsp/hint-lines.ts';
import { reviewText } from '../review/check.ts';

const CRIB = `{ "units": "inch", "tools": {
  "em-12-3": { "kind": "end-mill", "diameter": "1/2 in", "teeth": 3, "called": ["1/2 3FL EM"] } } }`;
const IN_DOUBT = '{ "units": "inch", "workpiece": { "material": "6061-T6" } }';
const STATED =
  '{ "units": "inch", "workpiece": { "material": "6061-T6" }, "tools": { "3": { "crib": "em-12-3" } } }';

function toolHint(feed: string, sheet: string): { text: string; asks: boolean } {
  const program = `G20 G17 G90 G94\n(T3 1/2 3FL EM)\nT3 M6\nS8000 M3\nG0 X0 Y0 Z.1\nG1 X4. F${feed}\n`;
  const hint = hintLines(reviewText(program, { crib: CRIB, sheet }), 'changes', 2, 2)[0];
  return { text: hint.text, asks: hint.ask?.command === 'tapeproof.confirmTool' };
}

describe('a tool that a comment calls as in the crib', () => {
  const cases: [string, string, string, boolean][] = [
    ['is taken as it is while its chip load is near its window', '72.', IN_DOUBT, false],
    ['is taken as it is a little over its window', '180.', IN_DOUBT, false],
    ['is asked about again when the chip load is over twice its window', '720.', IN_DOUBT, true],
    ['is asked about again when the chip load is under half of its window', '6.', IN_DOUBT, true],
    ['is not asked about when the setup sheet says that it is this one', '720.', STATED, false],
  ];
  for (const [title, feed, sheet, asks] of cases)
    it(title, () => {
      const hint = toolHint(feed, sheet);
      assert.equal(hint.asks, asks);
      assert.equal(hint.text.includes('which tool?'), asks);
    });
});
