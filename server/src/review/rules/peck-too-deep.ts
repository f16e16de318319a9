import { formatQuantity } from '../../cutting/format.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { firstOfEachTool, type PlacedHole } from './holes-at.ts';
import { drilled } from './sample-programs.ts';

const sheet = (more: string) =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "C45" }, "tools": { "1": { "kind": "drill", "diameter": 5, "substrate": "hss"${more} } } }`;

/** A drill goes too deep in one go. */
export const peckTooDeep: Rule = {
  code: 'peck-too-deep',
  title: 'Drill goes too deep in one go',
  family: 'cutting',
  severity: 'information',
  means: 'Chips pack in the flutes before the drill comes out: it heats, squeals and breaks in the hole.',
  cure: 'Peck (G83 Q, or G73 Q) two to three diameters at first, one diameter below six diameters.',
  fine_when: 'The drill is made for it, with coolant through it, or the chips are short.',
  source:
    'first 2 to 3 D, then 1 D; grey iron none to 5 D; through-coolant carbide none to 8 D: common practice, no source',
  needs: [],
  program(program, report) {
    for (const placed of firstOfEachTool(
      program,
      h => h.kind === 'drill' && tooDeep(program, h) !== undefined,
    )) {
      const out = tooDeep(program, placed);
      if (!out) continue;
      const { hole } = placed;
      const times = (hole.stroke_mm / out.diameter).toFixed(1);
      const pecks = hole.strokes > 1;
      report({
        at: pecks ? program.wordPlace(hole.line, 'Q') : program.blockPlace(hole.line),
        severity:
          program.material && hole.stroke_mm > 1.6 * out.most * out.diameter ? 'warning' : 'information',
        message: `Packs chips: T${placed.tool} drills ${formatQuantity('length_mm', hole.stroke_mm, program.shown)} in one go, ${times} diameters. ${pecks ? 'Peck' : 'Use G83 with Q of'} ${formatQuantity('length_mm', 2 * out.diameter, program.shown)} or less.`,
      });
    }
  },
  flagged: [
    {
      name: 'seven diameters without a peck',
      program: drilled('G81 Z-36. R1. F150.\n^^^^^^^^^^^^^^^^^^^\n'),
      sheet: sheet(''),
    },
    {
      name: 'a peck of eight diameters',
      program: drilled('G83 Z-60. R1. Q40. F150.\n              ^^^^\n'),
      sheet: sheet(''),
    },
  ],
  silent: [
    { name: 'pecks of two diameters', program: drilled('G83 Z-36. R1. Q10. F150.\n'), sheet: sheet('') },
    { name: 'three diameters', program: drilled('G81 Z-15. R1. F150.\n'), sheet: sheet('') },
    {
      name: 'coolant through a carbide drill',
      program: drilled('G81 Z-36. R1. F150.\n'),
      sheet: sheet('')
        .replace('"hss"', '"carbide"')
        .replace('"workpiece"', '"coolant": "through", "workpiece"'),
    },
  ],
};

function tooDeep(program: Program, placed: PlacedHole): { diameter: number; most: number } | undefined {
  const known = program.tool(placed.tool);
  const diameter = known?.diameter_mm?.value;
  if (!diameter || known?.kind?.origin.from === 'comment') return undefined;
  const short = program.material?.character.includes('short-chips') || program.material?.group === 'K';
  const through = program.sheet?.coolant?.value === 'through';
  const most = through ? 8 : known?.substrate?.value === 'carbide' ? 5 : short ? 6 : 4;
  return placed.hole.stroke_mm > most * diameter + 2 ? { diameter, most } : undefined;
}
