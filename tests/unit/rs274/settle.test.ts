import assert from 'node:assert/strict';
import { type Hints, ProgramText, settle } from '../../../server/src/rs274/index.ts';

/** Program with `|` as line end, and what is settled: dialect kind units form dwell, each `value(how)` where named. */
const CASES: [name: string, program: string, wanted: Record<string, string>, hints?: Hints][] = [
  [
    'a posted mill program',
    'G21 G17 G90|T1 M6|G0 X1. Y2.',
    { dialect: 'iso6983 likely', kind: 'mill only-fit', units: 'mm stated' },
  ],
  ['nothing says the units', 'G0 X1. Y2.', { units: 'mm unknown' }],
  ['units given where not stated', 'G0 X1. Y2.', { units: 'inch given' }, { units: 'inch' }],
  ['what the program states wins', 'G20|G0 X1. Y2.', { units: 'inch stated' }, { units: 'mm' }],
  ['units by G70 on an old mill', 'G70|G0 X1. Y2.', { units: 'inch stated' }],
  [
    'a lathe with T0101 and G96',
    'T0101|G50 S2000|G96 S200 M3|G0 X50. Z2.',
    { kind: 'lathe only-fit', dialect: 'lathe-a likely', diameter: 'true likely' },
  ],
  [
    'G71 with P and Q is no unit',
    'G21|T0101|G71 U2. R1.|G71 P1 Q2 U0.4 W0.1',
    { kind: 'lathe only-fit', units: 'mm stated' },
  ],
  [
    'a lathe by G7 and G96 D',
    'G7 G18|G96 D2000 S150|G0 X10 Z2',
    { dialect: 'ngc only-fit', kind: 'lathe only-fit' },
  ],
  [
    'flow by O words',
    'o100 sub|G1 X1 Y1 F1|o100 endsub|o100 call',
    { dialect: 'ngc only-fit', kind: 'mill only-fit' },
  ],
  [
    'code system B by G92 S and G95',
    'T0101|G92 S2000|G95|G96 S100 M3|G0 X1. Z1.',
    { dialect: 'lathe-b likely' },
  ],
  ['words with points leave nothing open', 'G0 X1. Y0', { least_increment_mm: '0 only-fit' }],
  [
    'large whole words fit only thousandths',
    'G0 X90000 Y60000|Z25000|X1500',
    { least_increment_mm: '0.001 likely' },
  ],
  ['small whole words are whole units', 'G0 X90 Y60', { least_increment_mm: '0 likely' }],
  ['P200 is milliseconds', 'G82 X1. Y1. Z-1. R1. P200', { dwell: 'ms likely' }],
  ['P3 is seconds', 'G0 X1. Y1.|G4 P3', { dwell: 's likely' }],
  ['blocks that end with ;', 'G21;|G0 X1. Y1.;|M30;', { semicolon_ends_block: 'true only-fit' }],
  [
    'a dialect given',
    'G0 X1. Z1.',
    { dialect: 'lathe-c given', kind: 'lathe given' },
    { dialect: 'lathe-c' },
  ],
];

const NOT_CUTTING: [name: string, program: string, line: number][] = [
  ['printer', 'G28|M104 S200|M109 S200|G1 X1 Y1 E0.5', 1],
  ['conversational', '0 BEGIN PGM A MM|1 TOOL CALL 3 Z S2000|2 L X+10 FMAX', 0],
  ['structured', 'T="DRILL"|M6 D1|X=AC(5)|CYCLE81(1,2)', 0],
  ['drill table', 'M48|METRIC,TZ|T1C0.8|T2C1.2|%', 1],
];

describe('rs274: settling', () => {
  for (const [name, program, wanted, hints] of CASES) {
    it(name, () => {
      const settled = settle(ProgramText.fromString(program.replaceAll('|', '\n')), hints);
      assert.equal(settled.not_cutting, undefined);
      for (const [key, value] of Object.entries(wanted)) {
        const item = settled[key as 'dialect'];
        assert.equal(`${item.value} ${item.how}`, value, `${key}: ${item.why}`);
        assert.ok(item.why.length > 3);
      }
    });
  }
  for (const [name, program, line] of NOT_CUTTING) {
    it(`is not a cutting program: ${name}`, () => {
      const { not_cutting } = settle(ProgramText.fromString(program.replaceAll('|', '\n')));
      assert.ok(not_cutting !== undefined);
      assert.equal(not_cutting.line, line);
    });
  }
});
