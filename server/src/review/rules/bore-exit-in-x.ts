import { KIND } from '../../rs274/steps.ts';
import { cuttingUses } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { statedBar } from '../stated-bar.ts';
import { toolName } from './words.ts';

const sheet =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "tools": { "5": { "kind": "bore-bar", "nose_radius": 0.4 } } }';
const PROGRAM = (exit: string) =>
  `G21 G18 G40 G99\nT0505\nG97 S900 M3\nG0 X30. Z2.\nG1 Z-20. F0.1\n${exit}M30\n`;
const STEPS_SEEN = 20_000;

/** A boring bar that moves outward while it is still in the bore. */
export const boreExitInX: Rule = {
  code: 'bore-exit-in-x',
  title: 'Boring bar moves in X inside the bore',
  family: 'geometry',
  severity: 'error',
  means:
    'The bar is still inside when it moves outward at rapid: it runs into the wall, bends and moves the part.',
  cure: 'First a little inward, then out in Z, then X.',
  fine_when: 'The bore is wider there than any cut of this program shows.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe') return;
    const face = statedBar(program)?.face_z_mm ?? 0;
    for (const use of cuttingUses(program)) {
      if (use.tool?.kind?.value !== 'bore-bar') continue;
      const widest = Math.max(...use.parts.map(p => p.high(0)).filter(x => x >= 0));
      const cursor = program.reading.cursor(use.first_line, use.last_line + 1);
      for (let i = 0; i < STEPS_SEEN && cursor.next(); i++) {
        if (cursor.kind !== KIND.rapid || !(cursor.z0 < Math.min(0, face) - 0.5)) continue;
        if (!(cursor.x > Math.max(cursor.x0, widest) + 0.5)) continue;
        report({
          at: program.blockPlace(cursor.line),
          severity: program.sheet ? 'error' : 'warning',
          message: `Runs into the wall of the bore: ${toolName(use)} moves out in X while it is still inside. Write the move in Z first.`,
        });
        return;
      }
    }
  },
  flagged: [
    { name: 'X and Z at once', program: PROGRAM('G0 X100. Z50.\n^^^^^^^^^^^^^\n'), sheet },
    { name: 'X first', program: PROGRAM('G0 X100.\n^^^^^^^^\nZ50.\n'), sheet },
  ],
  silent: [
    { name: 'inward, out in Z, then X', program: PROGRAM('G0 X29.\nZ2.\nX100. Z50.\n'), sheet },
    {
      name: 'a turning tool goes out in X',
      program: PROGRAM('G0 X100.\nZ50.\n'),
      sheet: sheet.replace('bore-bar', 'turn'),
    },
  ],
};
