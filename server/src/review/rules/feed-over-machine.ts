import { formatQuantity } from '../../cutting/format.ts';
import { RUN } from '../../rs274/steps.ts';
import { edgeFacts } from '../facts.ts';
import { cuttingUses, lineOfLetter } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const SHEET = '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983", "max_feed": 5000 } }';

/** Faster than the axes are fed. */
export const feedOverMachine: Rule = {
  code: 'feed-over-machine',
  title: 'Feed over the machine',
  family: 'cutting',
  severity: 'warning',
  means:
    'The feed is over what the axes take: the control stops or holds its top feed; in threads and taps the pitch is lost.',
  cure: 'Lower F; for threads lower S.',
  fine_when: 'The machine named in the setup sheet is not the one it runs on.',
  source: "the machine's limits in the setup sheet",
  needs: ['machine.max_feed'],
  explains: ['chip-load-high'],
  program(program, report) {
    const top = program.machine?.max_feed_mm_min?.value;
    if (top === undefined) return;
    for (const use of cuttingUses(program)) {
      for (const part of use.parts) {
        if (part.cut_steps === 0 || part.run[RUN.feed_mode] === 93) continue;
        const x = program.kind === 'lathe' ? part.least_x_mm / 2 : 0;
        const feed = edgeFacts(part.run, use.tool, program.kind, x).feed_mm_min;
        if (!(feed > top * 1.0001)) continue;
        const thread = part.run[RUN.lead] > 0;
        const line = lineOfLetter(program, thread ? 'S' : 'F', use.change_line - 3, part.first_cut_line);
        const shownFeed = (value: number) => formatQuantity('feed_mm_min', value, program.shown);
        report({
          at: program.wordPlace(line >= 0 ? line : part.first_cut_line, thread ? 'S' : 'F'),
          severity: thread ? 'error' : 'warning',
          message: thread
            ? `Cuts the wrong pitch: this thread asks for ${shownFeed(feed)}, and the axes take ${shownFeed(top)}. Lower S.`
            : `The machine does not follow: ${toolName(use)} asks for ${shownFeed(feed)}, and the axes take ${shownFeed(top)}. Lower F.`,
        });
        break;
      }
    }
  },
  flagged: [
    {
      name: 'a digit too many',
      program: `${MILL_MM}${milled(1).replace('X50. F300.\n', 'X50. F30000.\n     ^^^^^^^\n')}M30\n`,
      sheet: SHEET,
    },
  ],
  silent: [
    { name: 'inside', program: `${MILL_MM}${milled(1)}M30\n`, sheet: SHEET },
    {
      name: 'the machine is not known',
      program: `${MILL_MM}${milled(1).replace('F300.', 'F30000.')}M30\n`,
      options: ISO,
    },
  ],
};
