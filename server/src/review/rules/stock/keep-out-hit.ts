import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import { toolName } from '../words.ts';
import { onMill, placeWords } from './places.ts';
import { END_MILL_10, LATHE_HEAD, latheSheet, MILL_HEAD, millSheet, TURNING_TOOL } from './sample-sheets.ts';

interface Hit {
  line: number;
  what: string;
  part: string;
  rapid: boolean;
  at: readonly [number, number, number];
}

/** Hits of one use that are told. */
const MOST_HITS = 20;

const hits = watchSteps<readonly Hit[]>((use, program) => {
  const { cuts } = program;
  if (!cuts || (cuts.kind === 'mill' && !onMill(use, program))) return undefined;
  const found = new Map<string, Hit>();
  return {
    see({ step, line }) {
      if (found.size >= MOST_HITS) return;
      for (const { box, part, rapid, at } of cuts.collisions(step)) {
        const what = cuts.keepOutName(step, box);
        const key = `${what} ${part}`;
        if (!found.has(key)) found.set(key, { line, what, part, rapid, at });
      }
    },
    result: () => [...found.values()],
  };
});

const BLADE = { kind: 'part-off', width: 3, substrate: 'carbide' };
/** Jaws up to Z-30 that hold the bar of 50 mm, and a tailstock centre of 12 mm. */
const CHUCK = {
  setups: {
    G54: {
      keep_out: [
        {
          what: 'chuck jaw',
          box: [
            [25, 0, -60],
            [70, 0, -30],
          ],
        },
        {
          what: 'tailstock centre',
          box: [
            [-6, -6, 2],
            [6, 6, 60],
          ],
        },
      ],
    },
  },
};

const KEEP_OUT = {
  setups: {
    G54: {
      keep_out: [
        {
          what: 'clamp',
          box: [
            [-5, 15, -5],
            [5, 25, 12],
          ],
        },
      ],
    },
  },
};

/** Tool, shank or holder runs into something that holds the part. */
export const keepOutHit: Rule = {
  code: 'keep-out-hit',
  title: 'Runs into jaws or clamps',
  family: 'geometry',
  severity: 'error',
  means:
    'The tool, its shank or its holder passes through a jaw, clamp, stop, chuck, tailstock or steady rest of the setup sheet; on a lathe the cutting end is looked at here, the holder by itself.',
  cure: 'Go over it or round it, move the clamp, or correct its box in the setup sheet.',
  fine_when:
    'The box in the setup sheet is larger than the real thing, or the clamp is moved before this line.',
  source: 'keep-out boxes of the setup sheet',
  needs: ['stock'],
  tool(use, program, report) {
    for (const hit of hits.of(program, use) ?? []) {
      const who = hit.part === 'tool' ? toolName(use) : `the ${hit.part} of ${toolName(use)}`;
      report({
        at: program.blockPlace(hit.line),
        message: `Hits the ${hit.what}: ${who} runs into it${hit.rapid ? ' at rapid' : ''} at ${placeWords(program, hit.at)}. Go over or round it.`,
      });
    }
  },
  flagged: [
    {
      name: 'across a clamp at rapid',
      program: `${MILL_HEAD}G0 X-20. Y20. Z25.\nZ5.\nX50.\n^^^^\nZ25.\nX-20. Y5.\nG1 Z-1. F200.\nX50.\n`,
      sheet: millSheet(END_MILL_10, KEEP_OUT),
    },
    {
      name: 'parts off into the jaws',
      program: `${LATHE_HEAD}G0 X142. Z-33.\nG1 X-1. F0.1\n^^^^^^^^^^^^\nG0 X142.\n`,
      sheet: latheSheet(BLADE, CHUCK),
    },
    {
      name: 'a rapid through the tailstock',
      program: `${LATHE_HEAD}G0 X46. Z2.\nG1 Z-10. F0.2\nG0 X60.\nZ20.\nX4.\n^^^\nX60.\n`,
      sheet: latheSheet(TURNING_TOOL, CHUCK),
    },
    {
      name: 'turns on into the chuck jaws',
      program: `${LATHE_HEAD}G0 X46. Z2.\nG1 Z-36. F0.2\n^^^^^^^^^^^^^\nG0 X60.\n`,
      sheet: latheSheet(TURNING_TOOL, CHUCK),
    },
  ],
  silent: [
    {
      name: 'parts off before the jaws',
      program: `${LATHE_HEAD}G0 X54. Z-29.9\nG1 X-1. F0.1\nG0 X60.\n`,
      sheet: latheSheet(BLADE, CHUCK),
    },
    {
      name: 'turns up to the jaws, beside the tailstock',
      program: `${LATHE_HEAD}G0 X46. Z20.\nG1 Z-30. F0.2\nG0 X60.\nZ20.\n`,
      sheet: latheSheet(TURNING_TOOL, CHUCK),
    },
    {
      name: 'over the clamp',
      program: `${MILL_HEAD}G0 X-20. Y20. Z25.\nX50.\nX-20. Y5.\nG1 Z-1. F200.\nX50.\n`,
      sheet: millSheet(END_MILL_10, KEEP_OUT),
    },
    {
      name: 'beside the clamp',
      program: `${MILL_HEAD}G0 X-20. Y5. Z25.\nZ5.\nG1 Z-1. F200.\nX50.\n`,
      sheet: millSheet(END_MILL_10, KEEP_OUT),
    },
  ],
};
