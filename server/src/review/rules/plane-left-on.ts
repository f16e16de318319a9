import { KIND, RUN } from '../../rs274/steps.ts';
import { cuttingUses, lineOfCode } from '../lookup.ts';
import type { Part } from '../part.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM } from './sample-programs.ts';
import { toolName } from './words.ts';

const ARC = 1 << KIND.arc;

/** A plane that another tool left on. */
export const planeLeftOn: Rule = {
  code: 'plane-left-on',
  title: 'Plane is left on from the tool before',
  family: 'state',
  severity: 'warning',
  means:
    'Arcs and cycles run in the plane of the tool before: arcs turn on their side, and a cycle drills along another axis.',
  cure: 'Write G17 (or the plane that is meant) in the first block of each tool.',
  fine_when: 'The plane of the tool before is meant.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'mill') return;
    const uses = cuttingUses(program);
    for (const [index, use] of uses.entries()) {
      if (index === 0) continue;
      const before = uses[index - 1];
      const part = use.parts.find(
        p => p.cut_steps > 0 && p.run[RUN.plane] !== 17 && (p.kinds & ARC || p.run[RUN.motion] >= 730),
      );
      if (!part || !before.parts.some(p => p.run[RUN.plane] === part.run[RUN.plane])) continue;
      if (lineOfCode(program, 'G', [17, 18, 19], use.change_line, part.first_cut_line) >= 0) continue;
      report({
        at: program.blockPlace(part.kinds & ARC ? firstArc(part) : part.first_cut_line),
        message: `Goes the wrong way: ${toolName(use)} runs this in G${part.run[RUN.plane]}, left on from T${before.number}. Write G17 first.`,
      });
    }

    function firstArc(part: Part): number {
      const cursor = program.reading.cursor(part.first_cut_line, part.last_cut_line + 1);
      for (let i = 0; i < 1000 && cursor.next(); i++) if (cursor.kind === KIND.arc) return cursor.line;
      return part.first_cut_line;
    }
  },
  flagged: [
    {
      name: 'arcs after a tool in ZX',
      program: `${MILL_MM}T1 M6\nS3000 M3\nG0 X0 Y0 Z5.\nG18\nG1 Z0 F100.\nG2 X10. Z0 I5. K0\nG0 Z25.\nT2 M6\nS3000 M3\nG0 X0 Y0 Z5.\nG1 Z-1. F100.\nG2 X10. Z-1. I5. K0\n^^^^^^^^^^^^^^^^^^^\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    {
      name: 'G17 again',
      program: `${MILL_MM}T1 M6\nS3000 M3\nG0 X0 Y0 Z5.\nG18\nG1 Z0 F100.\nG2 X10. Z0 I5. K0\nG0 Z25.\nT2 M6\nG17\nS3000 M3\nG0 X0 Y0 Z5.\nG1 Z-1. F100.\nG2 X10. Y0 I5. J0\nM30\n`,
      options: ISO,
    },
    {
      name: 'stated by the second tool as well',
      program: `${MILL_MM}T1 M6\nS3000 M3\nG0 X0 Y0 Z5.\nG18\nG1 Z0 F100.\nG2 X10. Z0 I5. K0\nG0 Z25.\nT2 M6\nG18\nS3000 M3\nG0 X0 Y0 Z5.\nG1 Z-1. F100.\nG2 X10. Z-1. I5. K0\nM30\n`,
      options: ISO,
    },
  ],
};
