import { formatQuantity } from '../../cutting/format.ts';
import type { Contradiction } from '../../setup/index.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { MILL_MM, milled } from './sample-programs.ts';

const sheet = (diameter: number) =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "end-mill", "diameter": ${diameter} } } }`;

/** Sheet and comment name different tools. */
export const toolContradicts: Rule = {
  code: 'tool-contradicts',
  title: 'Setup sheet and comment name different tools',
  family: 'state',
  severity: 'warning',
  means:
    'The setup sheet says one tool and the comment in the program another: one of them stands in the machine.',
  cure: 'Correct the one that is wrong.',
  fine_when: 'The comment is left from an older version of the program.',
  source: 'this review',
  needs: [],
  program(program, report) {
    const told = new Set<number>();
    for (const use of program.uses) {
      const contradiction = use.tool?.contradictions[0];
      if (!contradiction || told.has(use.number)) continue;
      told.add(use.number);
      report({
        at: program.blockPlace(use.change_line),
        message: `Another tool may be in the spindle: ${difference(program, use.number, contradiction)}. Correct the one that is wrong.`,
      });
    }
  },
  flagged: [
    {
      name: 'another diameter',
      program: `(T1 10 MM END MILL)\n${MILL_MM}${milled(1).replace('T1 M6\n', 'T1 M6\n^^^^^\n')}M30\n`,
      sheet: sheet(12),
    },
  ],
  silent: [
    { name: 'the same', program: `(T1 12 MM END MILL)\n${MILL_MM}${milled(1)}M30\n`, sheet: sheet(12) },
    { name: 'no comment', program: `${MILL_MM}${milled(1)}M30\n`, sheet: sheet(12) },
  ],
};

/** A tool that the setup sheet does not list. */
export const toolNotInSheet: Rule = {
  code: 'tool-not-in-sheet',
  title: 'Tool is not in the setup sheet',
  family: 'state',
  severity: 'information',
  means:
    'The setup sheet lists tools and this one is not among them: its number may be wrong, and nothing about it was checked.',
  cure: 'Add it to the sheet, or correct the T word.',
  fine_when: 'Nothing needs to be known about the tool.',
  source: 'this review',
  needs: [],
  program(program, report) {
    const listed = program.sheet?.tools;
    if (!listed || listed.size === 0) return;
    const told = new Set<number>();
    for (const use of program.uses) {
      if (use.number < 0 || !use.cuts || told.has(use.number) || listed.has(use.number)) continue;
      told.add(use.number);
      if (use.tool?.by === 'standing') continue;
      report({
        at: program.blockPlace(use.change_line),
        severity: use.tool?.from === undefined ? 'warning' : 'information',
        message: `The sheet does not list T${use.number}: if the number is right, add the tool; nothing about it was checked.`,
      });
    }
  },
  flagged: [
    {
      name: 'a slip of the number',
      program: `${MILL_MM}${milled(11).replace('T11 M6\n', 'T11 M6\n^^^^^^\n')}M30\n`,
      sheet: sheet(12),
    },
  ],
  silent: [
    { name: 'listed', program: `${MILL_MM}${milled(1)}M30\n`, sheet: sheet(12) },
    { name: 'a sheet without tools', program: `${MILL_MM}${milled(11)}M30\n`, sheet: '{ "units": "mm" }' },
  ],
};

function difference(program: Program, tool: number, { known, other }: Contradiction): string {
  const say = (value: number | string) =>
    typeof value === 'number' ? formatQuantity('length_mm', value, program.shown) : value.replace('-', ' ');
  return `T${tool} is ${say(known.value)} in the sheet and ${say(other.value)} in the comment`;
}
