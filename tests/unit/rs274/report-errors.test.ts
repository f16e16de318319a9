import type { ReadOptions } from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };
const START = 'G21 G17 G90 G94 F100 G0 X0 Y0 Z0';

/** Error conditions of the report, section beside each, from memory. */
const CASES: [section: string, program: string][] = [
  ['3.3 bad character', 'G1 X1 & Y2 => !bad-character 6-7'],
  ['3.3.2.1 number with two points', 'X1.2.3 => !number-bad; !no-motion-code'],
  ['3.3.2.1 two signs', 'G0 X--1 => !number-bad'],
  ['3.3.2.1 no number', 'G0 X => !number-missing 3-4'],
  ['3.3.2.1 blanks inside a number mean nothing', 'G0 X +0. 12 34 Y 7 => rapid 0.1234 7 -'],
  ['3.3.4 comment not closed', 'G0 X1 (end => !comment-unclosed 6-10; rapid 1 - -'],
  ['3.3.4 comment in a comment', 'G0 X1 (a (b) c) => !comment-nested; rapid 1 - -'],
  ['3.3.3 letter repeated', 'G0 X1 X2 => !letter-repeated 6-8; rapid 2 - -'],
  ['3.4 two G of one group', 'G17 G18 => !codes-of-one-group 4-7'],
  ['3.4 two M of one group', 'M3 M5 => !codes-of-one-group 3-5'],
  ['3.4 more than four M', `M3 M8 M48 M50 M51 M52 => !too-many-m-codes`],
  ['3.5 unknown G', 'G47.3 => !code-unknown 0-5'],
  ['3.5 not within 0.0001 of a code', 'G1.01 X1 => !code-unknown; !no-motion-code'],
  ['3.5 within 0.0001 of a code', 'G1.00001 X1 F5 => feed 1 - -'],
  ['3.6 unknown M', 'M777.5 => !code-unknown'],
  ['3.3 N too long', 'N123456 G0 X1 => !block-number-large'],
  ['3.5.20 axis words without a code', 'X1 Y2 => !no-motion-code'],
  ['3.5 group 0 with group 1', `${START}\nG92 G1 X1 => !axis-words-twice`],
  ['3.5.16.1 G80 with axis words', `${START}\nG80 X1 => !axis-words-unused; !no-motion-code`],
  ['3.5 word without a use', `${START}\nG1 X1 K2 => !word-unused 6-8`],
  ['3.5.2 negative feed', 'F-1 => !feed-negative'],
  ['3.7.2 negative speed', 'S-100 => !speed-negative'],
  ['3.7.3 negative tool', 'T-1 => !tool-number-bad'],
  ['3.7.3 tool with a fraction', 'T1.5 => !tool-number-bad; !number-not-whole'],
  ['3.5.11 negative H', `${START}\nG43 H-1 => !number-negative`],
  ['3.5.3 K in the XY plane', `${START}\nG2 X2 I1 K1 => !arc-centre-wrong-axis`],
  ['3.5.3 neither centre nor radius', `${START}\nG2 X2 Y0 => !arc-centre-missing`],
  ['3.5.3 radius and centre', `${START}\nG2 X2 Y0 I1 R1 => !arc-radius-and-centre`],
  ['3.5.3 zero radius', `${START}\nG2 X2 Y0 R0 => !arc-radius-zero`],
  ['3.5.3 end is start with R', `${START}\nG2 X0 Y0 R5 => !arc-ends-equal`],
  ['3.5.3 end off the circle', `${START}\nG2 X2.5 Y0 I1 J0 => !arc-end-off-circle`],
  ['3.5.3 radius too short', `${START}\nG2 X10 Y0 R4 => !arc-radius-short`],
  ['3.5.4 dwell without P', 'G4 => !dwell-time-missing'],
  ['3.5.4 negative dwell', 'G4 P-1 => !dwell-time-negative; dwell seconds=0'],
  ['3.5.5 G10 with another L', 'G10 L99 P1 X0 => !set-data-kind-unknown'],
  ['3.5.5 G10 without P', 'G10 L2 X0 => !set-data-number-missing'],
  ['3.5.8 G28 under compensation', `${START}\nG41 D1 X1\nG28 Z0 => !compensation-on`],
  ['3.5.10 compensation twice', `${START}\nG41 D1 X1\nG42 D1 => !compensation-already-on`],
  ['3.5.10 compensation in YZ', `${START}\nG19\nG41 D1 => !compensation-plane`],
  ['3.5.12 G53 without a line', `${START}\nG2 X0 Y0 I1\nG53 X1 => !machine-move-without-line`],
  ['3.5.18 G92 without axis words', 'G92 => !axis-word-missing'],
  ['3.5.16 cycle without R', `${START}\nG81 X1 Z-1 => !cycle-word-missing`],
  ['3.5.16 R below Z', `${START}\nG81 X1 Z-1 R-2 => !cycle-r-below-z`],
  ['3.5.16 L0', `${START}\nG81 X1 Z-1 R1 L0 => !cycle-repeat-zero`],
  ['3.5.16.4 G83 without Q', `${START}\nG83 X1 Z-1 R1 => !cycle-word-missing`],
  ['3.6.3 tool change under compensation', `${START}\nG41 D1 X1\nT2 M6 => !compensation-on`],
];

describe('rs274: errors of the report', () => {
  for (const [section, program] of CASES) {
    it(`NISTIR 6556 section ${section}`, () => void check(`\n${program}\n`, NGC));
  }
});
