import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { scanPoints } from '../scan-points.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';

const LEAST =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "least_increment": 0.001 } }';

/** An axis word without a point among words that have one. */
export const pointMissing: Rule = {
  code: 'point-missing',
  title: 'Decimal point is missing',
  family: 'numbers',
  severity: 'information',
  means:
    'On a control that counts least increments X30 is 0.03 mm: the tool goes a thousandth of the way, mostly into the part.',
  cure: 'Write the point.',
  fine_when: 'The control takes numbers without a point as whole units: say least_increment none.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const { least_increment_mm, dialect } = program.reading.settled;
    if (dialect.value === 'ngc') return;
    const counted = least_increment_mm.how === 'given' && least_increment_mm.value > 0;
    if (least_increment_mm.how === 'given' && !counted) return;
    const points = scanPoints(program.reading);
    const few = points.whole > 0 && points.whole * 20 <= points.with_point;
    if (!few || points.with_point < (counted ? 5 : 40)) return;
    for (const word of points.places.slice(0, counted ? 50 : 1)) {
      const at = { line: word.line, column: word.start, end_line: word.line, end_column: word.end };
      const text = program.reading.text.lineText(word.line).slice(word.start, word.end);
      report({
        at,
        severity: counted ? 'warning' : 'information',
        message: counted
          ? `Goes a fraction of the way: ${text} has no point and counts ${shownStep(program)} a digit. Write ${text}.`
          : `${text} has no point, and nearly all other words have one: some controls read it as a thousandth. Write ${text}.`,
        fixes: [
          {
            title: `Write ${text}.`,
            grade: counted ? 'asks' : 'safe',
            edits: [{ ...at, column: at.end_column, text: '.' }],
          },
        ],
      });
    }
  },
  flagged: [
    {
      name: 'one point lost',
      program:
        `${MILL_MM}${milled(1).replace('X50. F300.\n', 'X50 F300.\n^^^\n')}Y1. X2. Z30.\nM30\n`.replace(
          'Y1. X2. Z30.',
          'G0 X1. Y1.\nX2. Y2.\nX3. Y3.\nX4. Y4.\nX5. Y5.\nX6. Y6.\nX7. Y7.\nX8. Y8.\nX9. Y9.',
        ),
      sheet: LEAST,
    },
  ],
  silent: [
    { name: 'zero needs none', program: `${MILL_MM}${milled(1)}G0 X0 Y0\nM30\n`, sheet: LEAST },
    {
      name: 'all words are whole numbers: another habit',
      program: 'G21 G90 G94\nS100 M3\nG0 X10 Y20 Z5\nG1 X30 Y40 F100\nM30\n',
      options: ISO,
    },
    {
      name: 'a calculator-type control',
      program: `${MILL_MM}${milled(1).replace('X50. F300.', 'X50 F300.')}M30\n`,
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "least_increment": "none" } }',
    },
  ],
};

function shownStep(program: Program): string {
  const { least_increment_mm, least_increment_inch, units } = program.reading.settled;
  return units.value === 'inch' ? `${least_increment_inch} in` : `${least_increment_mm.value} mm`;
}
