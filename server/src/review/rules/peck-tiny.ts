import type { Rule } from '../rule.ts';
import type { Hole } from '../scan-marks.ts';
import { firstOfEachTool } from './holes-at.ts';
import { drilled } from './sample-programs.ts';
import { length } from './stock/places.ts';

/** Pecks under this share of the diameter, and at least so many of them, are no pecks. */
const TINY_SHARE = 0.03;
const MANY = 40;
const sheet =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "least_increment": 0.001 }, "tools": { "1": { "kind": "drill", "diameter": 5 } } }';

/** Pecks of a few hundredths. */
export const peckTiny: Rule = {
  code: 'peck-tiny',
  title: 'Peck is next to nothing',
  family: 'numbers',
  severity: 'warning',
  means:
    'The drill comes out after every few hundredths: it rubs at the bottom hundreds of times a hole and takes minutes. Likely the point of Q is missing.',
  cure: 'Write Q with its point; half a diameter to two diameters are usual.',
  fine_when: 'The drill is a micro drill and the pecks are meant.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    for (const { hole, tool } of firstOfEachTool(program, ({ hole, tool }) => {
      const diameter = program.tool(tool)?.diameter_mm?.value;
      return (
        hole.cycle && diameter !== undefined && hole.strokes >= MANY && meanPeck(hole) < TINY_SHARE * diameter
      );
    })) {
      report({
        at: program.wordPlace(hole.line, 'Q'),
        message: `Rubs and takes long: T${tool} pecks ${hole.strokes} times, ${length(program, meanPeck(hole))} each. Is the point of Q missing?`,
      });
    }
  },
  flagged: [
    { name: 'Q without its point', program: drilled('G83 Z-16. R2. Q4 F150.\n              ^^\n'), sheet },
  ],
  silent: [
    { name: 'Q with its point', program: drilled('G83 Z-16. R2. Q4. F150.\n'), sheet },
    { name: 'short pecks', program: drilled('G83 Z-16. R2. Q0.5 F150.\n'), sheet },
  ],
};

function meanPeck({ top, bottom, strokes }: Hole): number {
  return (top - bottom) / strokes;
}
