import { isAbsent } from '../../../cutting/result.ts';
import { RUN } from '../../../rs274/steps.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { feedFixes } from '../feed-fix.ts';
import { shown, toolName } from '../words.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

/** Times that a feed may be raised at most, and at least for it to be offered. */
const MOST = 2;
const LEAST = 1.25;
/** Path that must gain by it, in diameters. */
const LEAST_PATH = 8;
/** Lighter passes than this are taken to finish: shares of the diameter. */
const FINISH_WIDTH = 0.04;
const FINISH_DEPTH = 0.25;

interface Feed {
  run: Float64Array;
  line: number;
  /** Thickest chip over the feed per tooth, of all blocks at this feed. */
  thickest: number;
  chip_load_mm: number;
  path_mm: number;
  finishing: boolean;
  spoiled: boolean;
}

/** Every block that inherits a feed counts: also its corners, plunges and the ones whose chip is not known. */
const feeds = watchSteps<readonly Feed[]>(use => {
  const diameter = use.tool?.diameter_mm?.value;
  if (!applies(use) || !diameter) return undefined;
  const byFeed = new Map<string, Feed>();
  return {
    see(step) {
      const run = step.step.runValues;
      const key = `${run[RUN.feed]} ${run[RUN.spindle]}`;
      if (step.rapid || !step.mill) return;
      let feed = byFeed.get(key);
      if (!feed) {
        feed = {
          run,
          line: step.line,
          thickest: 0,
          chip_load_mm: 0,
          path_mm: 0,
          finishing: false,
          spoiled: false,
        };
        byFeed.set(key, feed);
      }
      if (!step.trusted) feed.spoiled = true;
      if (!step.cuts) return;
      const { mill, edge } = step;
      const share = step.arc_share;
      if (!(share > 0 && edge.chip_load_mm > 0) || step.down_mm > 0.05 * step.level_mm) {
        feed.spoiled = true;
        return;
      }
      if (feed.path_mm === 0) feed.line = step.line;
      feed.thickest = Math.max(feed.thickest, share);
      feed.chip_load_mm = edge.chip_load_mm;
      feed.path_mm += step.level_mm * (1 - mill.air_share);
      if (mill.radial_width_mm < FINISH_WIDTH * diameter || mill.axial_depth_mm < FINISH_DEPTH * diameter)
        feed.finishing = true;
    },
    result: () => [...byFeed.values()],
  };
});

function applies({ tool }: ToolUse): boolean {
  return tool?.kind?.value === 'end-mill' && tool.wear?.value !== 'dull';
}

/** A word such as FINISH in the comment of the tool or near its change. */
function saysFinish(use: ToolUse, program: Program): boolean {
  const { text } = program.reading;
  const said = use.tool?.reading?.comments.map(comment => comment.text).join(' ') ?? '';
  let near = '';
  for (let line = Math.max(0, use.change_line - 3); line <= use.change_line + 1; line++)
    if (line < program.lineCount) near += ` ${text.lineText(line)}`;
  return /\b(fin|finish\w*|spring)\b/i.test(`${said} ${near}`);
}

/** How much faster the feed may be: chip, window and machine hold it. */
function room(feed: Feed, program: Program, use: ToolUse): number {
  const range = program.window(use.number)?.chip_load_mm;
  if (!range || isAbsent(range) || feed.chip_load_mm > range.high) return 1;
  const machine = program.machine?.max_feed_mm_min?.value ?? Number.POSITIVE_INFINITY;
  return Math.min(MOST, 1 / feed.thickest, machine / feed.run[RUN.feed]);
}

/** A light pass whose chip is thinner than the tooth could take. */
export const feedRoom: Rule = {
  code: 'feed-room',
  title: 'A light pass may feed faster',
  family: 'shop',
  severity: 'hint',
  means:
    'The pass is narrow, so each chip is thinner than the feed per tooth. The feed can rise until the chip is as thick as the feed per tooth says: less time, and less rubbing.',
  cure: 'Raise the feed a step at a time and listen.',
  fine_when: 'Finish, a weak grip or a machine that does not follow.',
  source: 'h = fz 2 sqrt(q - q2) (Martellotti 1941); at most twice',
  needs: ['stock', 'material', 'tool.kind', 'tool.diameter', 'tool.teeth'],
  applies,
  tool(use, program, report) {
    const diameter = use.tool?.diameter_mm?.value;
    if (program.cuts?.assumed || !diameter || saysFinish(use, program)) return;
    if (program.sheet?.workholding?.grip?.value === 'weak') return;
    for (const feed of feeds.of(program, use) ?? []) {
      const factor = room(feed, program, use);
      if (feed.spoiled || feed.finishing || factor < LEAST || feed.path_mm < LEAST_PATH * diameter) continue;
      const part = use.parts.find(
        each => each.cut_steps > 0 && each.first_cut_line <= feed.line && each.last_cut_line >= feed.line,
      );
      const times = Math.floor(factor * 10) / 10;
      report({
        at: program.blockPlace(feed.line),
        message: `This light pass of ${toolName(use)} may go ${times} x faster at the same chip: its chips are at most ${shown(program, 'chip_thickness_mm', feed.thickest * feed.chip_load_mm)} thick at ${shown(program, 'chip_load_mm', feed.chip_load_mm)}.`,
        fixes: part
          ? feedFixes(program, part, feed.run[RUN.feed] * times, 'the chip as thick as the feed per tooth')
          : [],
      });
    }
  },
  flagged: [
    {
      name: 'passes a tenth of the diameter wide, ten deep',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nZ-10.\nG1 X50. F400.\n^^^^^^^^^^^^^\nG0 Z5.\nX-10. Y-3.\nZ-10.\nG1 X50.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
  silent: [
    {
      name: 'a slot at the same feed further on',
      program: `${MILL_HEAD}G0 X-10. Y-4. Z5.\nZ-10.\nG1 X50. F400.\nG0 Z5.\nX-10. Y-3.\nZ-10.\nG1 X50.\nG0 Z5.\nX-10. Y20.\nZ-5.\nG1 X50.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a finishing tool',
      program: `${MILL_HEAD.replace('T1 M6', 'T1 M6 (FINISH WALLS)')}G0 X-10. Y-4. Z5.\nZ-10.\nG1 X50. F400.\nG0 Z5.\nX-10. Y-3.\nZ-10.\nG1 X50.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'half the diameter wide: the chip is full',
      program: `${MILL_HEAD}G0 X-10. Y0. Z5.\nZ-10.\nG1 X50. F400.\nG0 Z5.\nX-10. Y5.\nZ-10.\nG1 X50.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
};
