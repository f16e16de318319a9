import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { summedInPieces } from '../blocks.ts';
import { frameName } from '../frame-name.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { ISO } from './sample-programs.ts';

const tool = (n: number, first: string, second: string) =>
  `T${n} M6\nS1000 M3\nG0 ${first}\nG54 G0 X0 Y0\nG43 H${n} Z50.\nG1 Z-2. F100.\nG0 Z50.\n${second}G55 X0 Y0\nG1 Z-2. F100.\nG0 Z50.\nG91 G28 Z0\nG90\n`;
const PROGRAM = (second: string) =>
  `G21 G17 G40 G49 G80 G90 G94\n${tool(1, 'B0', 'G0 B180.\n')}${tool(2, 'B0', 'G0 B180.\n')}${tool(3, 'B0', second)}M30\n`;

/** One tool works in a work offset at another angle of the table than all the others. */
export const offsetAtOtherAngle: Rule = {
  code: 'offset-at-other-angle',
  title: 'Work offset at another angle of the table',
  family: 'state',
  severity: 'warning',
  machine: 'mill',
  means:
    'The other tools work in this offset at one angle of the rotary table, this one at another: an index is forgotten, and the tool meets the wrong face.',
  cure: 'Write the index (A, B or C) before this offset.',
  fine_when: 'The offset stands for several faces.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (!turnsTable(program) || program.uses.filter(use => use.cuts).length < 3) return;
    const seen = anglesOf(program);
    for (const [frame, tools] of seen) {
      if (tools.size < 3 || [...tools.values()].some(at => at.size !== 1)) continue;
      const counts = new Map<string, number[]>();
      for (const [number, at] of tools)
        for (const key of at.keys()) counts.set(key, [...(counts.get(key) ?? []), number]);
      const odd = [...counts.values()].find(list => list.length === 1);
      if (counts.size !== 2 || !odd) continue;
      const use = program.uses.find(each => each.number === odd[0] && each.cuts);
      const name = frameName(frame);
      if (!use || !name) continue;
      let line = use.change_line;
      for (let at = use.change_line; at <= use.last_line && at < use.change_line + 400; at++)
        if (program.words(at).some(w => w.letter === 'G' && w.value * 10 === frame)) {
          line = at;
          break;
        }
      report({
        at: program.blockPlace(line),
        message: `Meets the wrong face: T${odd[0]} works in ${name} at another angle of the table than every other tool. Is an index missing?`,
      });
    }
  },
  flagged: [
    {
      name: 'an index forgotten',
      program: PROGRAM('').replace(/G55 X0 Y0\n(?!.*G55)/s, 'G55 X0 Y0\n^^^^^^^^^\n'),
      options: ISO,
    },
  ],
  silent: [
    { name: 'indexed each time', program: PROGRAM('G0 B180.\n'), options: ISO },
    {
      name: 'one offset for all faces',
      program: PROGRAM('G0 B180.\n').replace(/G55/g, 'G54'),
      options: ISO,
    },
  ],
};

/** Whether any move names a rotary axis; the walk below is for such programs only. */
function turnsTable(program: Program): boolean {
  return turning(program.reading).some(piece => piece.value);
}

const turning = summedInPieces(
  stretches => stretches.some(({ steps }) => steps.rotaryCount > 0),
  pieces => pieces.some(piece => piece.value),
);

/** Angles of the table that each tool works at in each work offset, with the first line of each. */
function anglesOf(program: Program): Map<number, Map<number, Map<string, number>>> {
  const seen = new Map<number, Map<number, Map<string, number>>>();
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  const angles = [Number.NaN, Number.NaN, Number.NaN];
  let key = '';
  let at: Map<string, number> | undefined;
  let [frame, number] = [Number.NaN, Number.NaN];
  while (cursor.next()) {
    let turned = false;
    for (let axis = 0; axis < 3; axis++) {
      const angle = cursor.rotary(axis);
      if (Number.isNaN(angle) || angle === angles[axis]) continue;
      angles[axis] = angle;
      turned = true;
    }
    if (turned) key = angles.map(angle => (Number.isNaN(angle) ? '' : angle)).join(' ');
    if (key === '' || (cursor.kind !== KIND.feed && cursor.kind !== KIND.arc && cursor.kind !== KIND.tap))
      continue;
    const run = cursor.runValues;
    if (at === undefined || run[RUN.frame] !== frame || run[RUN.tool] !== number) {
      [frame, number] = [run[RUN.frame], run[RUN.tool]];
      const tools = seen.get(frame) ?? new Map<number, Map<string, number>>();
      seen.set(frame, tools);
      at = tools.get(number) ?? new Map<string, number>();
      tools.set(number, at);
    }
    if (!at.has(key) && at.size < 8) at.set(key, cursor.line);
  }
  return seen;
}
