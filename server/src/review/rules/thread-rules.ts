import { formatQuantity } from '../../cutting/format.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { isConfirmed } from '../../setup/known.ts';
import { cuttingUses, lineOfCode } from '../lookup.ts';
import type { Part } from '../part.ts';
import type { Rule } from '../rule.ts';
import { statedBar } from '../stated-bar.ts';
import { LATHE_A } from './sample-programs.ts';

const THREAD = 1 << KIND.thread;
const HEAD = 'G21 G18 G40 G99\nT0505\nG97 S800 M3\n';
const BAR =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "workpiece": { "stock": { "shape": "bar", "diameter": 30, "length": 80, "face": 0 } } }';
const PITCHED =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "tools": { "5": { "kind": "thread-turn", "pitch": "M30x1.5" } } }';
const PASSES = (second: string) =>
  `${HEAD}G0 X32. Z6.\nG92 X29.4 Z-20. F1.5\nX29.1\n${second}G0 X80. Z50.\nM30\n`;

/** Passes of one thread with different leads. */
export const threadLeadChanges: Rule = {
  code: 'thread-lead-changes',
  title: 'Lead changes between passes of a thread',
  family: 'cutting',
  severity: 'error',
  means: 'A pass with another lead cuts through the crests of the passes before: the thread is scrap.',
  cure: 'Write the same lead on every pass.',
  fine_when: 'Two different threads lie over each other on purpose.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    let before: Part | undefined;
    for (const part of program.parts) {
      if (!(part.kinds & THREAD)) continue;
      const lead = part.run[RUN.lead];
      if (before && before.run[RUN.tool] === part.run[RUN.tool] && overlaps(before, part)) {
        const last = before.run[RUN.lead];
        if (Math.abs(lead / last - 1) > 0.001) {
          const length = (value: number) => formatQuantity('length_mm', value, program.shown);
          report({
            at: program.blockPlace(part.first_cut_line),
            severity: program.sheet ? 'error' : 'warning',
            message: `Scraps the thread: this pass has a lead of ${length(lead)}, the pass before ${length(last)}. Write the same lead.`,
          });
          return;
        }
      }
      before = part;
    }
  },
  flagged: [
    { name: 'a slip in the third pass', program: PASSES('X28.8 F1.25\n^^^^^^^^^^^\n'), options: LATHE_A },
  ],
  silent: [
    { name: 'the same lead', program: PASSES('X28.8 F1.5\n'), options: LATHE_A },
    {
      name: 'another thread further on',
      program: PASSES('G0 X32. Z-40.\nG92 X29.4 Z-60. F1.25\n'),
      options: LATHE_A,
    },
  ],
};

/** A thread whose lead is not the pitch that the tool makes. */
export const threadLeadMismatch: Rule = {
  code: 'thread-lead-mismatch',
  title: "Lead is not the tool's pitch",
  family: 'cutting',
  severity: 'error',
  means:
    'The lead of the thread is not the pitch that the tool is listed with: the thread is scrap. Often F is missing and a turning feed is taken as the lead.',
  cure: 'Write F with the pitch on the threading block.',
  fine_when: 'The tool cuts several pitches, or the thread has more than one start.',
  source: 'lead = pitch x starts (definition)',
  needs: [],
  program(program, report) {
    for (const use of cuttingUses(program)) {
      const pitch = use.tool?.pitch_mm;
      if (!pitch || use.tool?.kind?.value === 'thread-mill') continue;
      const fits = (p: Part) => {
        const ratio = p.run[RUN.lead] / pitch.value;
        return Math.abs(ratio - Math.max(1, Math.round(ratio))) <= 0.002;
      };
      const threads = use.parts.filter(p => p.kinds & THREAD);
      // a tapered run-in or run-out of a cycle follows the same spindle along a longer path
      const right = new Set(threads.filter(fits).map(p => p.first_cut_line));
      const part = threads.find(p => !fits(p) && !right.has(p.first_cut_line));
      if (!part) continue;
      const length = (value: number) => formatQuantity('length_mm', value, program.shown);
      report({
        at: program.blockPlace(part.first_cut_line),
        severity: isConfirmed(pitch.origin) ? 'error' : 'warning',
        message: `Scraps the thread: it is cut with a lead of ${length(part.run[RUN.lead])}, T${use.number} makes ${length(pitch.value)}. Write the pitch as F on this block.`,
      });
    }
  },
  flagged: [
    {
      name: 'F of the threading block missing',
      program: `${HEAD}G0 X32. Z6. F0.2\nG92 X29.4 Z-20.\n^^^^^^^^^^^^^^^\nX29.1\nM30\n`,
      sheet: PITCHED,
    },
  ],
  silent: [
    { name: 'the pitch', program: PASSES('X28.8\n'), sheet: PITCHED },
    {
      name: 'a cycle that runs out on a taper',
      program:
        'G21 G18 G40 G95 G7\nT5 M6\nG97 S700 M3\nG0 X36. Z6.\nG76 P1.5 Z-12. I-2. J0.3 R1.6 K1.84 Q29.5 H2 E1. L2\nG0 X60.\nM2\n',
      sheet: PITCHED.replace('lathe-a', 'ngc'),
    },
    { name: 'two starts', program: PASSES('X28.8\n').replace('F1.5', 'F3.'), sheet: PITCHED },
    { name: 'the pitch is not known', program: PASSES('X28.8\n').replace('F1.5', 'F0.2'), options: LATHE_A },
  ],
};

/** Constant surface speed while a thread is cut. */
export const cssInThread: Rule = {
  code: 'css-in-thread',
  title: 'Constant surface speed in a thread',
  family: 'state',
  severity: 'warning',
  means:
    'Under G96 each pass turns at another speed: the passes do not start at the same place and the thread is torn.',
  cure: 'Write G97 with a fixed speed before the thread.',
  fine_when: 'The control holds the speed by itself while it threads.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const part = program.parts.find(p => p.kinds & THREAD && p.run[RUN.css] === 1);
    if (!part) return;
    const line = lineOfCode(program, 'G', [96], 0, part.first_cut_line);
    report({
      at: line >= 0 ? program.wordPlace(line, 'G', 96) : program.blockPlace(part.first_cut_line),
      message:
        'Tears the thread: G96 changes the speed from pass to pass. Write G97 with a fixed speed before the thread.',
    });
  },
  flagged: [
    {
      name: 'G96 left on',
      program:
        'G21 G18 G40 G99\nT0505\nG50 S2000\nG96 S80 M3\n^^^\nG0 X32. Z6.\nG92 X29.4 Z-20. F1.5\nX29.1\nM30\n',
      options: LATHE_A,
    },
  ],
  silent: [
    { name: 'G97', program: PASSES('X28.8\n'), options: LATHE_A },
    {
      name: 'G96 for turning, G97 for the thread',
      program:
        `G21 G18 G40 G99\nT0101\nG50 S2000\nG96 S80 M3\nG0 X32. Z2.\nG1 Z-20. F0.2\nG0 X80. Z50.\n${PASSES('X28.8\n').slice(HEAD.length - 24)}`.replace(
          'G0 X80. Z50.\nT',
          'G0 X80. Z50.\nT',
        ),
      options: LATHE_A,
    },
  ],
};

/** Run-up before a thread. */
export const threadRunUpShort: Rule = {
  code: 'thread-run-up-short',
  title: 'Run-up before the thread is short',
  family: 'cutting',
  severity: 'information',
  means: 'The axis needs way to reach the lead: begun too close, the first turns have a wrong pitch.',
  cure: 'Start two to three leads before the work; more at high speed.',
  fine_when: 'The machine follows at once, or the first turns are cut away later.',
  source: 'two to three leads: common practice, no source',
  needs: [],
  program(program, report) {
    if (program.kind !== 'lathe') return;
    const face = statedBar(program)?.face_z_mm ?? 0;
    for (const use of cuttingUses(program)) {
      const part = use.parts.find(p => p.kinds & THREAD);
      if (!part) continue;
      const lead = part.run[RUN.lead];
      const start = startOf(part.first_cut_line);
      if (!(start > 0) || part.low(2) >= 0) continue;
      const way = start - Math.min(face, 0);
      if (way >= 1.9 * lead) continue;
      const length = (value: number) => formatQuantity('length_mm', value, program.shown);
      report({
        at: program.blockPlace(part.first_cut_line),
        severity: program.sheet && way < 1.2 * lead ? 'warning' : 'information',
        message: `The first turns get a wrong pitch: the thread begins ${length(way)} before the face, ${(way / lead).toFixed(1)} leads. Start ${length(3 * lead)} before it.`,
      });
    }

    function startOf(line: number): number {
      const cursor = program.reading.stepsOfLine(line);
      while (cursor.next()) if (cursor.kind === KIND.thread) return cursor.z0;
      return Number.NaN;
    }
  },
  flagged: [
    {
      name: 'less than a lead',
      program: `${HEAD}G0 X32. Z1.\nG92 X29.4 Z-20. F1.5\n^^^^^^^^^^^^^^^^^^^^\nX29.1\nM30\n`,
      sheet: BAR,
    },
  ],
  silent: [
    { name: 'four leads', program: PASSES('X28.8\n'), sheet: BAR },
    {
      name: 'a thread behind a shoulder',
      program: `${HEAD}G0 X32. Z-20.\nG92 X29.4 Z-40. F1.5\nX29.1\nM30\n`,
      sheet: BAR,
    },
  ],
};

function overlaps(a: Part, b: Part): boolean {
  const over = Math.min(a.high(2), b.high(2)) - Math.max(a.low(2), b.low(2));
  const span = Math.max(a.high(2) - a.low(2), b.high(2) - b.low(2));
  return (over > 0 || span === 0) && over >= span / 2 && Math.abs(a.high(0) - b.high(0)) < 3;
}
