import { extentsOf } from '../extents.ts';
import type { Rule } from '../rule.ts';

const SHEET =
  '{ "units": "inch", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "stock": { "shape": "block", "size": [4, 3, 1], "zero": [0, 0, 1] } } }';
const PROGRAM = (code: string) =>
  `${code} G17 G40 G49 G80 G90 G94\nT1 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H1 Z1.\nG1 Z-.2 F10.\nX4. F30.\nY3.\nX0\nY0\nG0 Z1.\nM30\n`;

/** The unit of the program does not fit the stock. */
export const unitsContradict: Rule = {
  code: 'units-contradict',
  title: 'Unit of length does not fit the part',
  family: 'numbers',
  severity: 'error',
  means:
    'In the unit that the program says it cuts a part 25.4 times smaller or larger than the stock; in the other one it fits.',
  cure: 'Write the other one of G20 and G21.',
  fine_when: 'The stock in the setup sheet is wrong.',
  source: 'inch = 25.4 mm',
  needs: [],
  explains_everywhere: [
    'chip-load-low',
    'chip-load-high',
    'surface-speed-low',
    'surface-speed-high',
    'tap-feed-mismatch',
    'tap-deeper-than-hole',
    'tap-hole-size',
    'tool-contradicts',
    'feed-mode-left-on',
    'feed-over-machine',
    'compensation-impossible',
    'peck-no-effect',
    'peck-too-deep',
  ],
  program(program, report) {
    const stock = program.sheet?.workpiece?.stock;
    const extents = extentsOf(program);
    if (!stock || !extents || stock.shape === 'from') return;
    const size = (axis: number) => extents.max[axis] - extents.min[axis];
    const [part, whole] =
      stock.shape === 'block'
        ? [Math.max(size(0), size(1)), Math.max(stock.size_mm.value[0], stock.size_mm.value[1])]
        : [
            Math.max(2 * extents.max[0], size(2)),
            Math.max(stock.diameter_mm.value, stock.length_mm?.value ?? 0),
          ];
    const ratio = part / whole;
    const small = ratio < 0.3 && ratio * 25.4 > 0.3;
    const large = ratio > 3 && ratio / 25.4 < 3;
    const { units } = program.reading.settled;
    if ((!small && !large) || units.how !== 'stated') return;
    if (!program.sheet?.units || program.sheet.units.value === units.value) return;
    const inch = units.value === 'inch';
    if (small ? inch : !inch) return;
    let line = 0;
    const most = Math.min(program.lineCount, 400);
    while (
      line < most &&
      !program.words(line).some(w => w.letter === 'G' && (w.value === 20 || w.value === 21))
    )
      line++;
    if (line === most) return;
    const at = program.wordPlace(line, 'G', inch ? 20 : 21);
    const other = inch ? 'G21' : 'G20';
    report({
      at,
      message: `Cuts ${inch ? 'a part 25 times too large' : 'a part 25 times too small'}: with ${inch ? 'G20' : 'G21'} it does not fit the stock, with ${other} it does. Write ${other}.`,
      fixes: [{ title: `Write ${other}`, grade: 'asks', edits: [{ ...at, text: other }] }],
    });
  },
  flagged: [
    { name: 'mm for inch', program: PROGRAM('G21').replace('G94\n', 'G94\n^^^\n'), sheet: SHEET },
    {
      name: 'inch for mm',
      program: PROGRAM('G20').replace('G94\n', 'G94\n^^^\n'),
      sheet: SHEET.replace('"inch"', '"mm"'),
    },
  ],
  silent: [
    { name: 'inch and inch', program: PROGRAM('G20'), sheet: SHEET },
    {
      name: 'a small feature of a large part',
      program: PROGRAM('G21').replace('X4.', 'X20.'),
      sheet: SHEET.replace('"inch"', '"mm"').replace('[4, 3, 1]', '[200, 100, 10]'),
    },
  ],
};
