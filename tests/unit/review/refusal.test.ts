import assert from 'node:assert/strict';
import { reviewText } from './check.ts';

/** Files of other languages, in our own words. Each is refused once; nothing else is said about it. */
const OTHERS: [about: string, text: string][] = [
  ['a printer file', `;LAYER:0\nM104 S200\nG92 E0\n${'G1 X1.1 Y2.2 E0.5\nX1.0.0\n'.repeat(20)}`],
  ['conversational', '0 BEGIN PGM A MM\n1 TOOL CALL 1 Z S4000\n2 L X+10 R0 FMAX\n3 L Y+5\n4 END PGM A MM\n'],
  ['named cycles', 'DEF REAL DEPTH=-5\nT="MILL" D1\nG0 X=AC(10)\nCYCLE81(10,0,2)\nM30\n'],
  ['a drill table', 'M48\nMETRIC,TZ\nT1C0.8\nT2C1.0\n%\nT1\nX1000Y2000\nM30\n'],
  ['data', `CDF\u0001${'\u0000\u0001\u0002abc\n'.repeat(40)}`],
];

describe('review: other languages', () => {
  for (const [about, text] of OTHERS) {
    it(`refuses ${about} once`, () => {
      const { findings } = reviewText(text);
      assert.deepEqual(
        findings.map(({ code }) => code),
        ['not-a-program'],
      );
    });
  }

  it('gives a move of a rotary axis alone its time', () => {
    const program = 'G21 G17 G90 G94 F90\nS1000 M3\nG0 X0 Y0 Z0 A0\nG1 A90\nG93 G1 A0 F2\nM30\n';
    const { tools } = reviewText(program, { options: { dialect: 'ngc', kind: 'mill' } });
    // 90 degrees at 90 degrees a minute, then half a minute by F2.
    const cut = tools.reduce((sum, tool) => sum + (tool.cut_time_s ?? 0), 0);
    assert.ok(Math.abs(cut - 90) < 1e-9, String(cut));
  });
});
