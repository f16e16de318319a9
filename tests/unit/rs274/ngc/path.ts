import assert from 'node:assert/strict';
import {
  ProgramText,
  type ReadOptions,
  readProgram,
  STEP_KINDS,
} from '../../../../server/src/rs274/index.ts';

/**
 * A program of the `ngc` dialect and the moves it makes, in order of execution, one a line: kind and end point in mm,
 * `-` not known; arcs with their sweep in degrees, dwells with their seconds. Steps `place`, `stop` and `end` are left out.
 */
export interface PathCase {
  readonly title: string;
  readonly program: string;
  readonly moves: string;
  /** Problem codes in order of lines; none where absent. */
  readonly problems?: string;
  readonly options?: ReadOptions;
}

/** Runs the cases as tests of a group. */
export function describePaths(group: string, cases: readonly PathCase[]): void {
  describe(group, () => {
    for (const one of cases) {
      it(one.title, () => {
        const reading = readProgram(ProgramText.fromString(lines(one.program)), {
          dialect: 'ngc',
          kind: 'mill',
          ...one.options,
        });
        assert.equal(pathOf(reading), lines(one.moves));
        assert.equal(
          reading
            .problems()
            .map(problem => problem.code)
            .join(' '),
          one.problems ?? '',
        );
      });
    }
  });
}

function lines(text: string): string {
  return text
    .split('\n')
    .map(line => line.trim())
    .filter(line => line !== '')
    .join('\n');
}

function pathOf(reading: ReturnType<typeof readProgram>): string {
  const path: string[] = [];
  const cursor = reading.cursor();
  while (cursor.next()) {
    const kind = STEP_KINDS[cursor.kind];
    if (kind === 'place' || kind === 'stop' || kind === 'end') continue;
    const parts = [kind, shown(cursor.x), shown(cursor.y), shown(cursor.z)];
    if (kind === 'arc') parts.push(`${shown((cursor.sweep_rad * 180) / Math.PI)}deg`);
    if (kind === 'dwell') parts.push(`${shown(cursor.seconds)}s`);
    if (kind === 'thread' || kind === 'tap') parts.push(`lead ${shown(cursor.run('lead'))}`);
    for (const [axis, letter] of [...'ABC'].entries()) {
      const angle = cursor.rotary(axis);
      if (!Number.isNaN(angle)) parts.push(`${letter}${shown(angle)}`);
    }
    path.push(parts.join(' '));
  }
  return path.join('\n');
}

/** To four places; -0 is 0. */
function shown(value: number): string {
  return Number.isNaN(value) ? '-' : String(Math.round(value * 1e4) / 1e4 + 0);
}
