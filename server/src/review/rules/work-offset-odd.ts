import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, lineOfCode } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { MILL_MM, milled } from './sample-programs.ts';

const SHEET = '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" } }';

/** One tool works in an offset that no other tool uses. */
export const workOffsetOdd: Rule = {
  code: 'work-offset-odd',
  title: 'One tool works in another work offset',
  family: 'state',
  severity: 'warning',
  means:
    'All other tools work in one offset and this one in another, for which no setup is named: it cuts somewhere else.',
  cure: 'Write the offset of the others, or name the second one under setups in the setup sheet.',
  fine_when: 'A second part or fixture stands there.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const { sheet } = program;
    if (!sheet || (sheet.setups && sheet.setups.size > 0)) return;
    const uses = cuttingUses(program);
    const frames = uses.map(
      use => new Set(use.parts.filter(p => p.cut_steps > 0).map(p => p.run[RUN.frame])),
    );
    const usual = frames[0] && [...frames[0]][0];
    if (uses.length < 2) return;
    const all = frames.flatMap(set => [...set]).filter(frame => frame >= 0);
    const count = (frame: number) => frames.filter(set => set.has(frame)).length;
    const common = [...new Set(all)].sort((a, b) => count(b) - count(a))[0] ?? usual;
    for (const [index, use] of uses.entries()) {
      const odd = [...frames[index]].find(frame => frame >= 0 && frame !== common && count(frame) === 1);
      if (odd === undefined || count(common) < 2 || frames[index].size > 1) continue;
      const code = odd / 10;
      const part = use.parts.find(p => p.cut_steps > 0);
      const line = part ? lineOfCode(program, 'G', [code], use.change_line, part.first_cut_line) : -1;
      report({
        at: line >= 0 ? program.wordPlace(line, 'G', code) : program.blockPlace(use.change_line),
        message: `Cuts somewhere else: T${use.number} works in G${code}, all other tools in G${common / 10}. Write G${common / 10}, or name G${code} under setups.`,
      });
    }
  },
  flagged: [
    {
      name: 'G55 among G54',
      program: `${MILL_MM}${milled(1)}${milled(2)}${milled(3).replace('G54 G0 X0 Y0\n', 'G55 G0 X0 Y0\n^^^\n')}M30\n`,
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'all in G54', program: `${MILL_MM}${milled(1)}${milled(2)}${milled(3)}M30\n`, sheet: SHEET },
    {
      name: 'two parts, both with each tool',
      program: `${MILL_MM}${milled(1, 'G0 Z25.\nG55 X0 Y0\nG1 Z-2.\n')}${milled(2, 'G0 Z25.\nG55 X0 Y0\nG1 Z-2.\n')}M30\n`,
      sheet: SHEET,
    },
    {
      name: 'the sheet names it',
      program: `${MILL_MM}${milled(1)}${milled(2)}${milled(3).replace('G54', 'G55')}M30\n`,
      sheet: SHEET.replace('"units"', '"setups": { "G55": {} }, "units"'),
    },
  ],
};
