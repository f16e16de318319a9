import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, errorWithSheet, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { expectedOffset, isHabit } from './offset-rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

/** A tool that runs with the length offset of another one. */
export const lengthOffsetForeign: Rule = {
  code: 'length-offset-foreign',
  title: "Another tool's length offset",
  family: 'state',
  severity: 'warning',
  means: 'The tool runs with the length of another tool: it crashes by the difference, or cuts air.',
  cure: 'Write H with the number of this tool.',
  fine_when:
    'The shop keeps a second length for a tool under another number: say so with length_offset or offset_rule.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind === 'lathe') return;
    const uses = cuttingUses(program);
    const numbers = new Set([...uses.map(use => use.number), ...(program.sheet?.tools?.keys() ?? [])]);
    if (isHabit(uses, 'length_offset')) return;
    for (const use of uses) {
      const expected = expectedOffset(program, use, 'H');
      for (const part of use.parts) {
        const offset = part.run[RUN.length_offset];
        if (part.cut_steps === 0 || !(offset > 0) || offset === use.number) continue;
        if (expected.stated ? expected.value === offset : !numbers.has(offset)) continue;
        const line = lineOfLetter(program, 'H', use.change_line, part.first_cut_line);
        const at = program.wordPlace(line >= 0 ? line : part.first_cut_line, 'H');
        const right = expected.value;
        report({
          at,
          severity: errorWithSheet(program),
          message: numbers.has(offset)
            ? `Runs into the part or cuts air: ${toolName(use)} has the length of T${offset} (H${offset}). Write H${right}.`
            : `Runs with another length: ${toolName(use)} has H${offset}, and the setup sheet says H${right}.`,
          ...(line >= 0
            ? {
                fixes: [
                  {
                    title: `H${right}, as this tool has`,
                    grade: 'asks',
                    edits: [{ ...at, text: `H${right}` }],
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
      name: 'H of the tool before',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H1 Z25.\n    ^^\nZ2.\nG1 Z-2. F100.\nX50.\nG0 Z25.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'each tool has its own', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'a second length under a number of its own',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H22 Z25.\nZ2.\nG1 Z-2. F100.\nX50.\nG0 Z25.\nM30\n`,
      options: ISO,
    },
    {
      name: 'the sheet says so',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H1 Z25.\nZ2.\nG1 Z-2. F100.\nX50.\nG0 Z25.\nM30\n`,
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "2": { "length_offset": 1 } } }',
    },
  ],
};
