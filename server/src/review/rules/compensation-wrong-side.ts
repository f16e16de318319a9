import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN, STEP_FLAG } from '../../rs274/steps.ts';
import { insideOf, type Loop, signedArea } from '../compensated-loop.ts';
import { linesOf } from '../part.ts';
import type { Rule } from '../rule.ts';

const SHEET =
  '{ "units": "inch", "machine": { "kind": "mill", "dialect": "iso6983", "compensation": "part-edge" }, "tools": { "2": { "kind": "end-mill", "diameter": 0.25 } } }';
const HEAD =
  'G20 G17 G40 G49 G80 G90 G94\nT2 M6\nS8000 M3\nG54 G0 X2. Y1.5\nG43 H2 Z1.\nZ.1\nG1 Z-.25 F30.\n';
const POCKET = (side: string) =>
  `${HEAD}${side}X2.6 Y1.5 F60.\nX3. Y1.5\nY2.5\nX1.\nY.5\nX3.\nY1.7\nG40 X2. Y1.5\nG0 Z1.\nM30\n`;

/** Most points kept of one contour. */
const MOST_POINTS = 4000;

/** A closed contour whose compensation lies on the other side than the place where the tool starts. */
export const compensationWrongSide: Rule = {
  code: 'compensation-wrong-side',
  title: 'Compensation on the wrong side',
  family: 'geometry',
  severity: 'warning',
  machine: 'mill',
  means:
    'The contour is closed and the tool comes from one side of it, but is compensated to the other: it crosses the edge of the part and cuts on the wrong side of the line.',
  cure: 'Write G41 for G42, or G42 for G41, or turn the contour round.',
  fine_when: 'The metal between is gone already.',
  source: 'geometry of the path',
  needs: [],
  program(program, report) {
    let loop: Loop | undefined;
    const close = () => {
      const found = loop;
      loop = undefined;
      if (!found || found.x.length > MOST_POINTS || found.x.length < 3) return;
      const gap = Math.hypot(found.x[0] - (found.x.at(-1) ?? 0), found.y[0] - (found.y.at(-1) ?? 0));
      const area = signedArea(found);
      // left of a contour run counter-clockwise is its inside
      const inner = area > 0 === (found.side === 41);
      const span = Math.sqrt(Math.abs(area));
      if (!(span > 0) || gap > 0.6 * span || !found.level) return;
      const starts = insideOf(found, found.from_x, found.from_y);
      const ends = insideOf(found, found.to_x, found.to_y);
      if (starts === inner || ends === inner) return;
      const other = found.side === 41 ? 42 : 41;
      report({
        at: program.wordPlace(found.line, 'G', found.side),
        message: `Cuts on the wrong side: the tool comes from ${starts ? 'inside' : 'outside'} this closed contour and G${found.side} takes it to the ${inner ? 'inside' : 'outside'}. Check G${found.side} against G${other}.`,
      });
    };
    const parts = program.parts.filter(
      ({ run }) => run[RUN.compensation] === 41 || run[RUN.compensation] === 42,
    );
    if (parts.length === 0) return;
    const { first, last } = linesOf(parts);
    const cursor = new StepCursor(program.reading, first, Number.POSITIVE_INFINITY);
    while (cursor.next()) {
      if (loop === undefined && cursor.line > last && program.reading.ordered) break;
      if (cursor.kind === KIND.dwell || cursor.kind === KIND.place) continue;
      const side = cursor.run('compensation');
      const on = (side === 41 || side === 42) && (cursor.flags & STEP_FLAG.compensated) !== 0;
      if (!on || cursor.runValues[RUN.plane] !== 17 || cursor.file !== undefined) {
        if (loop) {
          loop.to_x = cursor.x;
          loop.to_y = cursor.y;
          close();
        }
        continue;
      }
      if (loop && loop.side !== side) close();
      loop ??= {
        line: cursor.line,
        side,
        from_x: cursor.x0,
        from_y: cursor.y0,
        to_x: Number.NaN,
        to_y: Number.NaN,
        x: [],
        y: [],
        level: cursor.kind !== KIND.rapid,
      };
      if (Math.abs(cursor.z - cursor.z0) > 0.001 || cursor.kind === KIND.rapid) loop.level = false;
      if (loop.x.length > MOST_POINTS) continue;
      const parts = cursor.kind === KIND.arc ? Math.max(2, Math.ceil(Math.abs(cursor.sweep_rad) / 0.3)) : 1;
      for (let k = 1; k <= parts; k++) {
        if (parts === 1) {
          loop.x.push(cursor.x);
          loop.y.push(cursor.y);
          continue;
        }
        const turn = (cursor.sweep_rad * k) / parts;
        const dx = cursor.x0 - cursor.centre_first;
        const dy = cursor.y0 - cursor.centre_second;
        loop.x.push(cursor.centre_first + dx * Math.cos(turn) - dy * Math.sin(turn));
        loop.y.push(cursor.centre_second + dx * Math.sin(turn) + dy * Math.cos(turn));
      }
    }
  },
  flagged: [
    {
      name: 'G42 round a pocket that is run counter-clockwise',
      program: POCKET('G42 D2 ').replace('F60.\n', 'F60.\n^^^\n'),
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'G41', program: POCKET('G41 D2 '), sheet: SHEET },
    {
      name: 'an open edge',
      program: `${HEAD}G42 D2 X2.6 Y1.5 F60.\nX3. Y1.5\nY2.5\nX6.\nG40 X7. Y3.\nG0 Z1.\nM30\n`,
      sheet: SHEET,
    },
  ],
};
