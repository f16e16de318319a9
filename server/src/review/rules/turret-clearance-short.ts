import { formatQuantity } from '../../cutting/format.ts';
import { KIND } from '../../rs274/steps.ts';
import type { Rule } from '../rule.ts';
import { statedBar } from '../stated-bar.ts';

const CHANGE = 1 << KIND.toolchange;
const AXIAL = new Set(['drill', 'spot-drill', 'center-drill', 'reamer', 'tap', 'bore', 'bore-bar']);
const sheet =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "workpiece": { "stock": { "shape": "bar", "diameter": 60, "length": 90, "face": 1 } }, "tools": { "1": { "kind": "turn", "nose_radius": 0.8 }, "5": { "kind": "drill", "diameter": 20, "stickout": 110 } } }';
const PROGRAM = (place: string) =>
  `G21 G18 G40 G99\nT0101\nG97 S900 M3\nG0 X62. Z2.\nG1 Z-20. F0.2\n${place}T0505\nG97 S600 M3\nG0 X0. Z5.\nG1 Z-20. F0.15\nG0 Z150.\nM30\n`;

/** The turret turns where its longest tool does not pass. */
export const turretClearanceShort: Rule = {
  code: 'turret-clearance-short',
  title: 'Turret turns too close to the part',
  family: 'geometry',
  severity: 'warning',
  means: 'The turret changes tools where its longest tool, swinging round, reaches the part or the chuck.',
  cure: 'Retract further in Z (or X) before the T word.',
  fine_when: 'The long tool stands in a place of the turret that does not pass the part.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe') return;
    let longest = 0;
    let tool = -1;
    for (const use of program.uses) {
      const out = use.tool?.stickout_mm?.value ?? 0;
      if (use.tool?.kind && AXIAL.has(use.tool.kind.value) && out > longest) {
        longest = out;
        tool = use.number;
      }
    }
    if (longest === 0) return;
    const bar = statedBar(program);
    const face = bar?.face_z_mm ?? 0;
    const radius =
      bar?.radius_mm ?? Math.max(0, ...program.parts.map(p => p.most_x_mm / 2).filter(x => x > 0));
    for (const part of program.parts) {
      if (!(part.kinds & CHANGE)) continue;
      const cursor = program.reading.stepsOfLine(part.first_line);
      while (cursor.next()) {
        if (cursor.kind !== KIND.toolchange) continue;
        const clear = cursor.z - face;
        if (!(clear < longest) || !(cursor.x - radius < longest)) continue;
        const length = (value: number) => formatQuantity('length_mm', value, program.shown);
        report({
          at: program.wordPlace(part.first_line, 'T'),
          severity: 'warning',
          message: `May hit the part as the turret turns: it stands ${length(clear)} off the face, and T${tool} sticks out ${length(longest)}. Retract further before this change.`,
        });
        return;
      }
    }
  },
  flagged: [
    {
      name: 'as far as usual, with a long drill',
      program: PROGRAM('G0 X70. Z50.\n').replace('T0505\n', 'T0505\n^^^^^\n'),
      sheet,
    },
  ],
  silent: [
    { name: 'far enough in Z', program: PROGRAM('G0 X70. Z120.\n'), sheet },
    { name: 'at the reference position', program: PROGRAM('G28 U0. W0.\n'), sheet },
    {
      name: 'the length is not known',
      program: PROGRAM('G0 X70. Z50.\n'),
      sheet: sheet.replace(', "stickout": 110', ''),
    },
  ],
};
