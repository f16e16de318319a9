import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, firstCut } from '../lookup.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import type { ToolUse } from '../tool-use.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const sheet = (material: string, more = '') =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "${material}" }${more} }`;
const wet = (tool: number) => milled(tool).replace('Z2.\n', 'Z2. M8\n');

/** A gummy material cut dry. */
export const coolantOffGummy: Rule = {
  code: 'coolant-off-gummy',
  title: 'Gummy material is cut dry',
  family: 'cutting',
  severity: 'information',
  means:
    'Chips weld to the edge without coolant or air: the surface tears and the tool breaks when the flutes are full.',
  cure: 'Switch coolant, mist or air on (M8, M7) before the cut.',
  fine_when:
    'Air blows from a line that the program does not switch, or the coating is made for dry cutting.',
  source: 'common practice, no source',
  needs: ['material'],
  program(program, report) {
    if (!sticks(program)) return;
    const stated = program.sheet?.coolant?.value;
    if (stated === 'air' || stated === 'through') return;
    const uses = cuttingUses(program);
    const someWet = uses.some(use => use.parts.some(p => p.cut_steps > 0 && p.run[RUN.coolant] > 0));
    for (const use of uses) {
      const part = firstCut(use);
      if (!part || use.parts.some(p => p.cut_steps > 0 && p.run[RUN.coolant] !== 0)) continue;
      if (use.tool?.kind?.value === 'probe') continue;
      report({
        at: program.blockPlace(part.first_cut_line),
        severity:
          (someWet || stated === 'dry') && (program.material?.group !== 'P' || inHole(use))
            ? 'warning'
            : 'information',
        message: `Chips weld to the edge: ${toolName(use)} cuts ${program.materialName?.value ?? 'this material'} dry. Write M8 before this cut.`,
      });
    }
  },
  flagged: [
    {
      name: 'forgotten at one tool',
      program: `${MILL_MM}${wet(1)}M9\n${milled(2).replace('G1 Z-2. F100.\n', 'G1 Z-2. F100.\n^^^^^^^^^^^^^\n')}M30\n`,
      sheet: sheet('6061-T6'),
    },
  ],
  silent: [
    { name: 'on', program: `${MILL_MM}${wet(1)}M9\n${wet(2)}M30\n`, sheet: sheet('6061-T6') },
    { name: 'cast iron is cut dry', program: `${MILL_MM}${milled(1)}M30\n`, sheet: sheet('GJL-250') },
    {
      name: 'air from a line',
      program: `${MILL_MM}${milled(1)}M30\n`,
      sheet: sheet('6061-T6', ', "coolant": "air"'),
    },
  ],
};

/** Water on magnesium. */
export const coolantOnMagnesium: Rule = {
  code: 'coolant-on-magnesium',
  title: 'Water on magnesium',
  family: 'cutting',
  severity: 'error',
  means:
    'Burning magnesium takes the oxygen out of water and sets hydrogen free: coolant feeds a fire instead of putting it out.',
  cure: 'Cut dry, with air, or with the mineral oil the supplier names; keep a class D extinguisher at hand.',
  fine_when: 'The coolant is a mineral oil or an emulsion made for magnesium.',
  source: 'common practice, no source',
  needs: ['material'],
  program(program, report) {
    const { material, sheet: job } = program;
    if (!material?.character.includes('fire') || material.character.includes('titanium')) return;
    if (job?.coolant && !['flood', 'mist', 'through'].includes(job.coolant.value)) return;
    const part = program.parts.find(p => p.cut_steps > 0 && p.run[RUN.coolant] > 0);
    if (!part) return;
    let line = part.first_line;
    while (
      line > 0 &&
      line > part.first_line - 100 &&
      !program.words(line).some(w => w.letter === 'M' && (w.value === 7 || w.value === 8))
    )
      line--;
    const code = program.words(line).find(w => w.letter === 'M' && (w.value === 7 || w.value === 8))?.value;
    report({
      at: code === undefined ? program.blockPlace(part.first_cut_line) : program.wordPlace(line, 'M', code),
      severity: job?.coolant ? 'error' : 'warning',
      message:
        'Feeds a chip fire: coolant is on and the part is magnesium. Cut dry or with air, or say which oil it is.',
    });
  },
  flagged: [
    {
      name: 'M8',
      program: `${MILL_MM}${milled(1).replace('Z2.\n', 'Z2. M8\n    ^^\n')}M30\n`,
      sheet: sheet('AZ91'),
    },
  ],
  silent: [
    { name: 'dry', program: `${MILL_MM}${milled(1)}M30\n`, sheet: sheet('AZ91') },
    { name: 'air', program: `${MILL_MM}${wet(1)}M30\n`, sheet: sheet('AZ91', ', "coolant": "air"') },
  ],
};

/** One tool cuts dry while all others have coolant. */
export const coolantForgotten: Rule = {
  code: 'coolant-forgotten',
  title: 'One tool cuts dry',
  family: 'state',
  severity: 'information',
  means:
    'All other tools have coolant and this one has none: it was likely forgotten, or switched off too early.',
  cure: 'Switch it on before the cut (M8).',
  fine_when: 'The tool is meant to cut dry.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (sticks(program)) return;
    const uses = cuttingUses(program);
    const dry = uses.filter(use => use.parts.every(p => p.cut_steps === 0 || p.run[RUN.coolant] === 0));
    if (uses.length < 3 || dry.length !== 1) return;
    const part = firstCut(dry[0]);
    if (!part || dry[0].tool?.kind?.value === 'probe') return;
    const hss = dry[0].tool?.substrate?.value === 'hss';
    const drills = ['drill', 'tap', 'reamer'].includes(dry[0].tool?.kind?.value ?? '');
    report({
      at: program.blockPlace(part.first_cut_line),
      severity: program.sheet && (drills || hss) ? 'warning' : 'information',
      message: `${toolName(dry[0])} cuts dry, and all other tools have coolant. Write M8 before this cut if it was forgotten.`,
    });
  },
  flagged: [
    {
      name: 'the second of three',
      program: `${MILL_MM}${wet(1)}M9\n${milled(2).replace('G1 Z-2. F100.\n', 'G1 Z-2. F100.\n^^^^^^^^^^^^^\n')}${wet(3)}M30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'all wet', program: `${MILL_MM}${wet(1)}M9\n${wet(2)}M9\n${wet(3)}M30\n`, options: ISO },
    {
      name: 'two of four dry',
      program: `${MILL_MM}${wet(1)}M9\n${milled(2)}${wet(3)}M9\n${milled(4)}M30\n`,
      options: ISO,
    },
  ],
};

/** Tools whose chips have to come out of a hole. */
function inHole(use: ToolUse): boolean {
  return ['drill', 'tap', 'reamer', 'bore'].includes(use.tool?.kind?.value ?? '');
}

/** Material that welds to a dry edge: gummy by its data, aluminium, stainless and heat-resisting. */
function sticks({ material }: Program): boolean {
  if (!material || material.character.includes('fire')) return false;
  const { character, mill_feed, group } = material;
  return character.includes('gummy') || mill_feed === 'alu' || group === 'M' || group === 'S';
}
