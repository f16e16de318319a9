import { formatQuantity } from '../../cutting/format.ts';
import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { isConfirmed } from '../../setup/known.ts';
import { linesOf } from '../part.ts';
import type { Rule } from '../rule.ts';

const FULL_RAD = 2 * Math.PI * 0.95;
const sheet = (more = '') =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "thread-mill", "diameter": 10, "pitch": 1.5${more} } } }`;
const PROGRAM = (turn: string) =>
  `G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H1 Z5.\nG1 Z-12. F800.\nX5. F200.\n${turn}G1 X0\nG0 Z5.\nM30\n`;

/** The helix of a thread mill rises by another pitch, or turns the other way. */
export const threadMillHelix: Rule = {
  code: 'thread-mill-helix',
  title: 'Helix does not make the thread',
  family: 'cutting',
  severity: 'error',
  machine: 'mill',
  means:
    'A full turn of a thread mill must rise by the pitch, counter-clockwise going up for a right-hand thread: otherwise the crests are cut away, or the thread is left-handed.',
  cure: 'Set the end of Z one pitch from the start of the turn; G3 upwards or G2 downwards for a right-hand thread.',
  fine_when: 'A left-hand thread is meant, or the thread has several starts.',
  source: 'geometry of a helix: rise a turn = pitch x starts',
  needs: [],
  program(program, report) {
    const uses = program.uses.filter(use => use.tool?.kind?.value === 'thread-mill');
    if (uses.length === 0) return;
    const { first, last } = linesOf(uses);
    const told = new Set<number>();
    const cursor = new StepCursor(program.reading, first, last + 1);
    while (cursor.next()) {
      const number = cursor.runValues[RUN.tool];
      if (cursor.kind !== KIND.arc || told.has(number) || cursor.runValues[RUN.plane] !== 17) continue;
      const tool = program.tool(number);
      if (tool?.kind?.value !== 'thread-mill' || !(Math.abs(cursor.sweep_rad) >= FULL_RAD)) continue;
      const rise = cursor.z - cursor.z0;
      if (Math.abs(rise) < 1e-6) continue;
      const pitch = tool.pitch_mm;
      const per_turn = (Math.abs(rise) * 2 * Math.PI) / Math.abs(cursor.sweep_rad);
      const starts = pitch ? Math.max(1, Math.round(per_turn / pitch.value)) : 1;
      const right = cursor.sweep_rad > 0 === rise > 0;
      const length = (value: number) => formatQuantity('length_mm', value, program.shown);
      const off = pitch !== undefined && Math.abs(per_turn / (pitch.value * starts) - 1) > 0.01;
      if (pitch && off) {
        told.add(number);
        report({
          at: program.blockPlace(cursor.line),
          severity: isConfirmed(pitch.origin) ? 'error' : 'warning',
          message: `Scraps the thread: a turn rises by ${length(per_turn)}, T${number} makes a pitch of ${length(pitch.value)}. Correct Z.`,
        });
      } else if (!right && tool.hand?.value !== 'left') {
        told.add(number);
        report({
          at: program.blockPlace(cursor.line),
          severity: 'warning',
          message: `Makes a left-hand thread: T${number} goes ${rise > 0 ? 'up clockwise' : 'down counter-clockwise'}. Write ${rise > 0 ? 'G3' : 'G2'}, or say hand left at the tool.`,
        });
      }
    }
  },
  flagged: [
    {
      name: 'a rise that is not the pitch',
      program: PROGRAM('G3 X5. Y0 Z-10. I-5. J0 F150.\n^^^^^^^^^^^^^^^^^^^^^^^^^^^^^\n'),
      sheet: sheet(),
    },
    {
      name: 'clockwise going up',
      program: PROGRAM('G2 X5. Y0 Z-10.5 I-5. J0 F150.\n^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^\n'),
      sheet: sheet(),
    },
  ],
  silent: [
    { name: 'the pitch', program: PROGRAM('G3 X5. Y0 Z-10.5 I-5. J0 F150.\n'), sheet: sheet() },
    {
      name: 'a left-hand thread',
      program: PROGRAM('G2 X5. Y0 Z-10.5 I-5. J0 F150.\n'),
      sheet: sheet(', "hand": "left"'),
    },
  ],
};
