import { KIND, RUN } from '../../rs274/steps.ts';
import { cuttingUses, firstCut, lineOfLetter, runsStraight, withinReach } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const OWN_FEED = (1 << KIND.thread) | (1 << KIND.tap);
const TAP = 1 << KIND.tap;

/** A tool that cuts at the feed of the tool before. */
export const feedInherited: Rule = {
  code: 'feed-inherited',
  title: 'Feed is left over from the tool before',
  family: 'state',
  severity: 'information',
  means:
    'No F is written for this tool: it cuts at the feed of the tool before, which was meant for another edge.',
  cure: 'Write F on the first cutting move of the tool.',
  fine_when: 'Both tools are alike and the feed is meant.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    const uses = cuttingUses(program);
    for (const [index, use] of uses.entries()) {
      if (index === 0) continue;
      const before = uses[index - 1];
      const part = firstCut(use);
      if (!part || part.kinds & OWN_FEED || before.number === use.number) continue;
      const feed = part.run[RUN.feed];
      if (!(feed > 0) || feed !== before.parts.at(-1)?.run[RUN.feed]) continue;
      if (!withinReach(use.change_line, part.first_cut_line)) continue;
      if (lineOfLetter(program, 'F', use.change_line, part.first_cut_line) >= 0) continue;
      if (!runsStraight(program, use.change_line, part.first_cut_line)) continue;
      const tapped = before.parts.some(p => p.kinds & TAP);
      report({
        at: program.blockPlace(part.first_cut_line),
        severity: tapped || program.sheet ? 'warning' : 'information',
        message: tapped
          ? `Likely breaks the tool: ${toolName(use)} cuts at the tapping feed of T${before.number}. Write its own F here.`
          : `${toolName(use)} cuts at the feed left over from T${before.number}. Write its own F here.`,
      });
    }
  },
  flagged: [
    {
      name: 'feed of the tap',
      program: `${MILL_MM}T1 M6\nS500 M3\nG0 X0 Y0\nG43 H1 Z20.\nG84 X0 Y0 Z-10. R5. F625.\nG80\nM5\nT2 M6\nS3000 M3\nG0 X0 Y0\nG43 H2 Z2.\nG1 Z-1.\n^^^^^^^\nX50.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'its own F', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'F on the rapid before',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG0 X0 Y0 F250.\nG43 H2 Z2.\nG1 Z-1.\nX50.\nM30\n`,
      options: ISO,
    },
  ],
};
