import { formatTime } from '../../../cutting/format.ts';
import { KIND, STEP_FLAG } from '../../../rs274/steps.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import { stepMinutes } from '../../step-time.ts';
import { toolName } from '../words.ts';
import { percent } from './passes-of-load.ts';
import { END_MILL_10, LATHE_HEAD, latheSheet, MILL_HEAD, millSheet, TURNING_TOOL } from './sample-sheets.ts';

/** Share of the feeding time in air, and seconds of it, from which on it is worth a word. */
const LEAST_SHARE = 0.4;
const LEAST_S = 20;

interface Air {
  air_s: number;
  feed_s: number;
  /** Line with the most of it. */
  line: number;
  trusted: boolean;
}

const times = watchSteps<Air>(() => {
  const air: Air = { air_s: 0, feed_s: 0, line: -1, trusted: true };
  let most = 0;
  return {
    see({ step, mill, lathe, rapid, trusted, line }) {
      // a cycle that feeds out does so on purpose, and a thread needs its way to run up
      if (rapid || step.kind === KIND.thread || (step.flags & STEP_FLAG.cycle) !== 0) return;
      if (!trusted) air.trusted = false;
      const inverse = step.seconds / 60;
      const seconds = 60 * stepMinutes(step.runValues, step.kind, step.length_mm, step.x0, step.x, inverse);
      if (!(seconds > 0)) return;
      const share = (mill ?? lathe)?.air_share ?? Number.NaN;
      if (Number.isNaN(share)) return;
      air.feed_s += seconds;
      air.air_s += seconds * share;
      if (seconds * share > most) {
        most = seconds * share;
        air.line = line;
      }
    },
    result: () => air,
  };
});

/** Much of the feeding time cuts nothing. */
export const airCutting: Rule = {
  code: 'air-cutting',
  title: 'Feeds through air',
  family: 'shop',
  severity: 'information',
  means: 'A large part of the feed moves of this tool meets no metal: time that a rapid would save.',
  cure: 'Start and end the feed moves nearer to the metal, or move there at rapid above the part.',
  fine_when: 'The stock varies from part to part, as castings do.',
  source: 'the stock of the setup sheet, cut move by move',
  needs: ['stock'],
  tool(use, program, report) {
    const air = times.of(program, use);
    if (program.cuts?.assumed || !air?.trusted || air.line < 0 || air.air_s < LEAST_S) return;
    const share = air.air_s / air.feed_s;
    if (share < LEAST_SHARE) return;
    report({
      at: program.blockPlace(air.line),
      message: `Time to save: ${toolName(use)} feeds through air for ${formatTime(air.air_s)}, ${percent(share)} of its feeding time; most of it here. Move nearer at rapid.`,
    });
  },
  flagged: [
    {
      name: 'a metre of approach at feed',
      program: `${MILL_HEAD}G0 X-200. Y20. Z5.\nZ-2.\nG1 X50. F200.\n^^^^^^^^^^^^^\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      // 60 in air before 30 in the bar, 0.1 at 1000 a minute
      name: 'a turning pass that begins far before the face',
      program: `${LATHE_HEAD}G0 X46. Z61.\nG1 Z-29. F0.1\n^^^^^^^^^^^^^\nG0 X60.\n`,
      sheet: latheSheet(TURNING_TOOL),
    },
  ],
  silent: [
    {
      name: 'starts just beside the block',
      program: `${MILL_HEAD}G0 X-8. Y20. Z5.\nZ-2.\nG1 X50. F100.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a few seconds only',
      program: `${MILL_HEAD}G0 X-60. Y20. Z5.\nZ-2.\nG1 X50. F600.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a turning pass from 2 before the face',
      program: `${LATHE_HEAD}G0 X46. Z3.\nG1 Z-29. F0.05\nG0 X60.\n`,
      sheet: latheSheet(TURNING_TOOL),
    },
    {
      // passes of 10 in air and 8 in metal, 0.9 seconds each
      name: 'a thread that runs up before a short bar, pass after pass',
      program: `${LATHE_HEAD}${'G0 X49. Z11.\nG32 Z-7. F0.2\nG0 X54.\nZ11.\n'.repeat(30)}`,
      sheet: latheSheet({ kind: 'thread-turn', point_angle_deg: 60, nose_radius: 0.1 }),
    },
  ],
};
