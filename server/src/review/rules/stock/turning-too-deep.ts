import type { Rule } from '../../rule.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { LATHE_HEAD, latheSheet, TURNING_TOOL } from './sample-sheets.ts';
import { edgeLength, turningDepths, turns } from './turning-depth.ts';

/** Share of the edge that a cut may take for long, and the most. */
const USUAL = 0.5;
const MOST = 0.8;

const pass = (x: number, mark = '') => `${LATHE_HEAD}G0 X${x} Z5.\nG1 Z-20. F0.2\n${mark}G0 X60.\nZ5.\n`;
const sheet = latheSheet({ ...TURNING_TOOL, insert: 'CNMG120408' });

/** A turning cut that is deeper than the edge of its insert bears. */
export const turningTooDeep: Rule = {
  code: 'turning-too-deep',
  title: 'Depth of cut over the edge of the insert',
  family: 'cutting',
  severity: 'information',
  means:
    'The cut takes more of the edge than an insert of this size bears: it chips or breaks, and the bar may move in the chuck.',
  cure: 'Take the depth in several passes, or a larger insert.',
  fine_when: 'The maker gives this depth for the insert.',
  source: 'two thirds of the edge for strong shapes, half for long: common practice, no source',
  needs: ['stock', 'tool.kind'],
  applies: (use, program) => turns(use) && program.kind === 'lathe',
  tool(use, program, report) {
    const edge = edgeLength(use);
    const deepest = turningDepths.of(program, use)?.deepest;
    if (edge === undefined || !deepest || deepest.depth_mm <= USUAL * edge) return;
    const far = deepest.depth_mm > MOST * edge;
    report({
      at: program.blockPlace(deepest.line),
      ...(far ? { severity: 'warning' as const } : {}),
      message: `${far ? 'May break the insert' : 'A heavy cut for the insert'}: ${toolName(use)} takes ${length(program, deepest.depth_mm)} in one pass with an edge of ${length(program, edge)}. Take it in several passes.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [{ name: '12 mm in one pass', program: pass(26, '^^^^^^^^^^^^^\n'), sheet }],
  silent: [
    { name: '3 mm in one pass', program: pass(44), sheet },
    { name: 'the insert is not stated', program: pass(26), sheet: latheSheet(TURNING_TOOL) },
  ],
};
