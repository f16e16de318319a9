import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { statedBar } from '../stated-bar.ts';
import { length } from './stock/places.ts';

const OUTSIDE = new Set(['turn', 'groove', 'part-off', 'thread-turn']);
const SHEET =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "workpiece": { "stock": { "shape": "bar", "diameter": 50, "length": 120, "face": 1 } }, "workholding": { "overhang": 60 }, "tools": { "1": { "kind": "turn" } } }';
const PROGRAM = (cut: string) =>
  `G21 G18 G40 G97 G99\nT0101\nS800 M3\nG0 X46. Z2.\n${cut}G0 X60.\nX100. Z50.\nM30\n`;

/** A turning tool reaches the jaws. */
export const chuckReached: Rule = {
  code: 'chuck-reached',
  title: 'Tool reaches the chuck',
  family: 'geometry',
  severity: 'error',
  machine: 'lathe',
  means:
    'The part stands out of the jaws by less than the tool goes along it: the tool runs into the turning chuck.',
  cure: 'Look for a lost point in Z, or let the part stand out further and say so under workholding.overhang.',
  fine_when:
    'The jaws are smaller than the diameter that is turned there, or overhang in the sheet is too small.',
  source: 'face of the stock and overhang of the setup sheet',
  needs: [],
  program(program, report) {
    const overhang = program.sheet?.workholding?.overhang_mm?.value;
    const bar = statedBar(program);
    if (overhang === undefined || !bar || !(overhang > 0)) return;
    const face = bar.face_z_mm ?? 0;
    const bore = bar.bore_radius_mm;
    const jaws = face - overhang;
    const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
    const told = new Set<number>();
    while (cursor.next()) {
      const { kind } = cursor;
      if (kind !== KIND.rapid && kind !== KIND.feed && kind !== KIND.arc && kind !== KIND.thread) continue;
      const number = cursor.runValues[RUN.tool];
      if (!(cursor.z < jaws) || !(Math.abs(cursor.x) > bore) || told.has(number) || cursor.file !== undefined)
        continue;
      if (!OUTSIDE.has(program.tool(number)?.kind?.value ?? '')) continue;
      told.add(number);
      report({
        at: program.blockPlace(cursor.line),
        message: `Runs into the chuck: T${number} goes to ${length(program, face - cursor.z)} behind the face, the part stands out ${length(program, overhang)}. Check Z.`,
      });
    }
  },
  flagged: [
    { name: 'a point lost in Z', program: PROGRAM('G1 Z-300. F0.2\n^^^^^^^^^^^^^^\n'), sheet: SHEET },
  ],
  silent: [
    { name: 'as far as it stands out', program: PROGRAM('G1 Z-50. F0.2\n'), sheet: SHEET },
    {
      name: 'overhang not stated',
      program: PROGRAM('G1 Z-90. F0.2\n'),
      sheet: SHEET.replace('"overhang": 60', '"grip": "firm"'),
    },
  ],
};
