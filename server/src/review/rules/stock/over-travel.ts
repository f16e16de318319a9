import { StepCursor } from '../../../rs274/index.ts';
import { KIND, STEP_FLAG } from '../../../rs274/steps.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import { length } from './places.ts';

const MOVES = new Set<number>([KIND.rapid, KIND.feed, KIND.arc]);
/** Steps that are looked at. */
const MOST_STEPS = 1_000_000;
const MOST_FOUND = 20;

interface Beyond {
  line: number;
  axis: 'x' | 'y' | 'z';
  at: number;
  limit: number;
}

/** Ends in machine coordinates that lie outside the travel; other places depend on offsets that only the control knows. */
function beyond(program: Program): Beyond[] {
  const travel = program.machine?.travel_mm?.value;
  const found: Beyond[] = [];
  if (!travel) return found;
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  for (let seen = 0; seen < MOST_STEPS && found.length < MOST_FOUND && cursor.next(); seen++) {
    if (!MOVES.has(cursor.kind) || (cursor.flags & STEP_FLAG.machine_frame) === 0) continue;
    if (cursor.file !== undefined) continue;
    for (const axis of ['x', 'y', 'z'] as const) {
      const range = travel.get(axis);
      const at = cursor[axis];
      if (!range || !Number.isFinite(at) || !writes(program, cursor.line, axis)) continue;
      const [low, high] = range;
      if (at < low - 1e-6) found.push({ line: cursor.line, axis, at, limit: low });
      else if (at > high + 1e-6) found.push({ line: cursor.line, axis, at, limit: high });
    }
  }
  return found;
}

function writes(program: Program, line: number, axis: string): boolean {
  return program.words(line).some(word => word.letter === axis.toUpperCase());
}

const SHEET = JSON.stringify({
  units: 'mm',
  machine: { kind: 'mill', dialect: 'iso6983', travel: { x: [-760, 0], y: [-400, 0], z: [-500, 0] } },
});

/** A place in machine coordinates outside the travel. */
export const overTravel: Rule = {
  code: 'over-travel',
  title: 'Outside the travel of the machine',
  family: 'geometry',
  severity: 'error',
  means:
    'The move ends outside what the axis can reach: the control stops with an over-travel alarm, perhaps in the cut.',
  cure: 'Check the sign and the digits of the word, or the travel in the setup sheet.',
  fine_when: 'The travel in the setup sheet is shorter than the real one: correct it.',
  source: 'travel of the setup sheet; only moves in machine coordinates (G53) can be judged',
  needs: ['machine.travel'],
  program(program, report) {
    for (const { line, axis, at, limit } of beyond(program)) {
      const letter = axis.toUpperCase();
      report({
        at: program.wordPlace(line, letter),
        message: `Over-travel alarm: ${letter} goes to ${length(program, at)} in machine coordinates, the axis ends at ${length(program, limit)}. Check the sign and the digits.`,
      });
    }
  },
  flagged: [
    {
      name: 'the sign lost',
      program: 'G21 G17 G90 G94\nT1 M6\nG53 G0 X760.\n       ^^^^^\nM30\n',
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'inside', program: `G21 G17 G90 G94\nT1 M6\nG53 G0 X-760. Z0\nM30\n`, sheet: SHEET },
    {
      name: 'a work offset: where it is only the control knows',
      program: `G21 G17 G90 G94\nT1 M6\nG54 G0 X900.\nM30\n`,
      sheet: SHEET,
    },
  ],
};
