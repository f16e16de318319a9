import { formatQuantity } from '../../cutting/format.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { Rule } from '../rule.ts';
import { firstOfEachTool, holesBefore, isTapped } from './holes-at.ts';
import { tapped, tapSheet } from './tap-sheets.ts';

const LEAST = 55;
const MOST = 85;

/** The hole under a tap is too tight or too wide. */
export const tapHoleSize: Rule = {
  code: 'tap-hole-size',
  title: 'Hole does not suit the tap',
  family: 'cutting',
  severity: 'warning',
  means: 'The drilled hole gives too much thread, and the tap breaks; or too little, and the thread strips.',
  cure: 'Drill for 60 to 75 % of thread: major diameter less 0.8 to 0.97 times the pitch.',
  fine_when: 'The tap forms instead of cutting, or the thread is a special one.',
  source: 'thread height 1.299 x pitch on the diameter (ISO 68-1); 55 to 85 %: common practice, no source',
  needs: [],
  program(program, report) {
    for (const tap of firstOfEachTool(program, isTapped)) {
      const known = program.tool(tap.tool);
      const major = known?.diameter_mm?.value;
      const pitch = known?.pitch_mm?.value;
      if (!major || !pitch || isSpecial(known, major, pitch)) continue;
      const drills = holesBefore(program, tap).filter(h => h.kind === 'drill' || h.kind === 'reamer');
      const drill = drills.at(-1);
      const size = drill && program.tool(drill.tool)?.diameter_mm?.value;
      if (!drill || !size) continue;
      const percent = (100 * (major - size)) / (1.299 * pitch);
      if (percent >= LEAST && percent <= MOST) continue;
      const length = (value: number) => formatQuantity('length_mm', value, program.shown);
      const low = major - 1.299 * pitch * 0.75;
      report({
        at: program.blockPlace(tap.hole.line),
        message: `${percent > MOST ? 'May break the tap' : 'Leaves a weak thread'}: the hole of T${drill.tool} (${length(size)}) gives ${Math.round(percent)} % of thread. Drill about ${length(low)}.`,
        related: [{ line: drill.hole.line, message: `T${drill.tool} drills it here` }],
        assumed:
          known?.pitch_mm?.origin.from === 'comment' &&
          known.diameter_mm?.origin.from === 'comment' &&
          size === major,
      });
    }
  },
  flagged: [
    {
      name: 'drill too small',
      program: tapped('-20.\n', 'G84 Z-14. R5. F500.\n')
        .replace('Z-20.\n', 'Z-20.')
        .replace('G81 Z-20. R2. F150.\n', 'G81 Z-20. R2. F150.\n^^^^^^^^^^^^^^^^^^^\n')
        .replace('F500.\n', 'F500.\n^^^^^^^^^^^^^^^^^^^\n'),
      sheet: tapSheet(6.3),
    },
  ],
  silent: [
    { name: 'the usual drill', program: tapped('-20.', 'G84 Z-14. R5. F500.\n'), sheet: tapSheet(6.8) },
    {
      name: 'a forming tap',
      program: `(T2 M8X1.25 FORM TAP)\n${tapped('-20.', 'G84 Z-14. R5. F500.\n')}`,
      sheet: tapSheet(7.4),
    },
    { name: 'another place', program: tapped('-20.', 'G84 X30. Z-14. R5. F500.\n'), sheet: tapSheet(6.3) },
  ],
};

/** Outside diameters (mm) and threads per inch of taper pipe threads, ASME B1.20.1. */
const PIPE: readonly (readonly [outside_mm: number, per_inch: number])[] = [
  [7.938, 27],
  [10.287, 27],
  [13.716, 18],
  [17.145, 18],
  [21.336, 14],
  [26.67, 14],
  [33.401, 11.5],
];

/** Forming taps and taper threads want other holes. */
function isSpecial(known: ToolKnown | undefined, major: number, pitch: number): boolean {
  const said = known?.reading?.comments.map(comment => comment.text).join(' ') ?? '';
  if (/FORM|ROLL|FLUTELESS|NPT|TAPER/i.test(said)) return true;
  return PIPE.some(
    ([outside, per_inch]) =>
      Math.abs(major / outside - 1) < 0.01 && Math.abs((pitch * per_inch) / 25.4 - 1) < 0.01,
  );
}
