import { RUN } from '../../../rs274/steps.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Part } from '../../part.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { feedFixes } from '../feed-fix.ts';
import { shown, toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { END_MILL_10, MILL_HEAD, millSheet } from './sample-sheets.ts';

const PLUNGERS = new Set(['end-mill', 'bull-mill', 'ball-mill', 'face-mill', 'slot-mill']);
/** Share of the diameter that counts as a plunge. */
const DEEP_SHARE = 0.1;
/** Feed of a plunge over the feed across from which on it counts as not reduced. */
const FULL_SHARE = 0.9;

interface Plunge {
  line: number;
  depth_mm: number;
  feed: number;
}

const plunges = watchSteps<{ across: number; place?: Plunge }>(use => {
  if (!applies(use)) return undefined;
  const diameter = use.tool?.diameter_mm?.value ?? Number.POSITIVE_INFINITY;
  const down: Plunge[] = [];
  let across = 0;
  return {
    see({ step, mill, rapid, trusted, down_mm, level_mm, line }) {
      if (rapid || !mill || !(mill.removed_mm3 > 0)) return;
      const feed = step.runValues[RUN.feed];
      if (step.runValues[RUN.feed_mode] === 93) return;
      if (down_mm > 2 * level_mm) {
        const solid = mill.centre_in_metal > 0 && mill.bottom_share > 0.5;
        if (trusted && solid && mill.axial_depth_mm > DEEP_SHARE * diameter && down.length < 100)
          down.push({ line, depth_mm: mill.axial_depth_mm, feed });
      } else if (level_mm > down_mm * 5 && feed > across) across = feed;
    },
    result: () => ({ across, place: down.find(each => each.feed >= FULL_SHARE * across) }),
  };
});

function applies({ tool }: ToolUse): boolean {
  return PLUNGERS.has(tool?.kind?.value ?? '');
}

/** A plunge into solid metal at the feed that is meant for cutting across. */
export const plungeAtFullFeed: Rule = {
  code: 'plunge-at-full-feed',
  title: 'Plunge at the feed for cutting across',
  family: 'cutting',
  severity: 'warning',
  means:
    'The tool goes straight down into solid metal as fast as it cuts sideways. The edges at its end have no room for that chip: they chip or the tool is pulled out.',
  cure: 'Give the plunge its own feed, a third to a half of the feed across, or ramp in.',
  fine_when: 'The tool is made for plunging at this feed.',
  source: 'common practice, no source',
  needs: ['stock', 'tool.kind', 'tool.diameter'],
  applies,
  tool(use, program, report) {
    const found = plunges.of(program, use);
    const place = found?.place;
    if (!found || !place || !(found.across > 0)) return;
    const part = partOfLine(use, place.line);
    report({
      at: program.blockPlace(place.line),
      message: `May break the tool: ${toolName(use)} plunges ${length(program, place.depth_mm)} into solid metal at the feed it cuts across with${part?.run[RUN.feed_mode] === 94 ? `, ${shown(program, 'feed_mm_min', place.feed)}` : ''}. Plunge at half of it or less, or ramp in.${assumedWords(program)}`,
      fixes: part
        ? feedFixes(program, part, place.feed / 2, 'half the feed for the plunge').filter(
            (_fix, index, all) => index === all.length - 1,
          )
        : [],
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'one feed for all',
      program: `${MILL_HEAD}G0 X20. Y20. Z5.\nG1 Z-3. F300.\n^^^^^^^^^^^^^\nX30.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
  ],
  silent: [
    {
      name: 'its own feed for the plunge',
      program: `${MILL_HEAD}G0 X20. Y20. Z5.\nG1 Z-3. F120.\nX30. F300.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'down beside the block',
      program: `${MILL_HEAD}G0 X-10. Y20. Z5.\nG1 Z-3. F300.\nX30.\nG0 Z5.\n`,
      sheet: millSheet(END_MILL_10),
    },
    {
      name: 'a drill goes down at its feed',
      program: `${MILL_HEAD}G0 X20. Y20. Z5.\nG1 Z-10. F300.\nG0 Z5.\n`,
      sheet: millSheet({ kind: 'drill', diameter: 8, teeth: 2, point_angle_deg: 118, substrate: 'hss' }),
    },
  ],
};

function partOfLine(use: ToolUse, line: number): Part | undefined {
  return use.parts.find(
    part => part.cut_steps > 0 && part.first_cut_line <= line && part.last_cut_line >= line,
  );
}
