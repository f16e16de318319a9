import type { Rule } from '../../rule.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { LATHE_HEAD, latheSheet, TURNING_TOOL } from './sample-sheets.ts';
import { turningDepths, turns } from './turning-depth.ts';

/** Share of the nose radius that a pass in work-hardening metal should take. */
const LEAST_SHARE = 0.25;

const pass = (x: number, mark = '') => `${LATHE_HEAD}G0 X${x} Z5.\nG1 Z-20. F0.2\n${mark}G0 X60.\nZ5.\n`;
const sheet = (material: string) => latheSheet(TURNING_TOOL, { workpiece: { material } });

/** A light pass in metal that work-hardens. */
export const turningTooShallow: Rule = {
  code: 'turning-too-shallow',
  title: 'Pass too light for metal that work-hardens',
  family: 'cutting',
  severity: 'information',
  means:
    'The pass stays in the skin that the pass before has hardened: the edge notches, and the skin gets harder still.',
  cure: 'Leave at least a quarter of the nose radius for each pass, or take an insert with a smaller nose.',
  fine_when: 'A last pass for size with a sharp insert.',
  source: 'a quarter of the nose radius: common practice, no source',
  needs: ['stock', 'material', 'tool.kind'],
  applies: (use, program) =>
    turns(use) && program.kind === 'lathe' && program.material?.character.includes('work-hardening') === true,
  tool(use, program, report) {
    const nose = use.tool?.nose_radius_mm?.value;
    const shallow = turningDepths.of(program, use)?.shallow;
    if (!nose || !shallow || shallow.depth_mm >= LEAST_SHARE * nose) return;
    report({
      at: program.blockPlace(shallow.line),
      message: `Cuts in its own hardened skin: ${toolName(use)} takes ${length(program, shallow.depth_mm)} with a nose of ${length(program, nose)}; leave at least ${length(program, LEAST_SHARE * nose)} in this metal.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    { name: '0.1 mm in stainless steel', program: pass(49.8, '^^^^^^^^^^^^^\n'), sheet: sheet('1.4301') },
  ],
  silent: [
    { name: '1 mm in stainless steel', program: pass(48), sheet: sheet('1.4301') },
    { name: 'plain steel does not harden so', program: pass(49.8), sheet: sheet('C45') },
  ],
};
