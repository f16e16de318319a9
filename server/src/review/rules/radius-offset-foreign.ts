import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, errorWithSheet, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { expectedOffset, isHabit } from './offset-rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const CUT = 'G41 D2 X10. Y5.\nX50.\nG40 X60. Y0\n';

/** Compensation with the radius offset of another tool. */
export const radiusOffsetForeign: Rule = {
  code: 'radius-offset-foreign',
  title: "Another tool's radius offset",
  family: 'state',
  severity: 'warning',
  means: 'The path is offset by the radius of another tool: the wall is cut too deep or left too thick.',
  cure: 'Write D with the number that belongs to this tool.',
  fine_when: 'Two tools share one offset on purpose: say so with radius_offset or offset_rule.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe') return;
    const uses = cuttingUses(program);
    const numbers = new Set(uses.map(use => use.number));
    if (isHabit(uses, 'radius_offset')) return;
    for (const use of uses) {
      const expected = expectedOffset(program, use, 'D');
      for (const part of use.parts) {
        const offset = part.run[RUN.radius_offset];
        if (part.cut_steps === 0 || part.run[RUN.compensation] === 40 || !(offset > 0)) continue;
        if (expected.stated ? offset === expected.value : offset === use.number || !numbers.has(offset))
          continue;
        const line = lineOfLetter(program, 'D', use.change_line, part.first_cut_line);
        const at = program.wordPlace(line >= 0 ? line : part.first_cut_line, 'D');
        report({
          at,
          severity: errorWithSheet(program),
          message: `Cuts the wall at the wrong size: ${toolName(use)} is compensated with D${offset}${numbers.has(offset) ? `, the number of T${offset}` : ''}. Write D${expected.value}.`,
          ...(line >= 0
            ? {
                fixes: [
                  {
                    title: `D${expected.value}, as this tool has`,
                    grade: 'asks',
                    edits: [{ ...at, text: `D${expected.value}` }],
                  },
                ],
              }
            : {}),
        });
        break;
      }
    }
  },
  flagged: [
    {
      name: 'D of the other tool',
      program: `${MILL_MM}${milled(1, 'G41 D2 X10. Y5.\n    ^^\nX50.\nG40 X60. Y0\n')}${milled(2)}M30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'its own D', program: `${MILL_MM}${milled(1)}${milled(2, CUT)}M30\n`, options: ISO },
    {
      name: 'the shop adds twenty',
      program: `${MILL_MM}${milled(1)}${milled(2, 'G41 D22 X10. Y5.\nX50.\nG40 X60. Y0\n')}M30\n`,
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "offset_rule": ["H=T", "D=T+20"] } }',
    },
  ],
};
