import { formatQuantity } from '../../cutting/format.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import { isConfirmed } from '../../setup/known.ts';
import type { Part } from '../part.ts';
import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { toolName } from './words.ts';

const KINDS = new Set(['end-mill', 'ball-mill', 'bull-mill']);
const sheet =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "stock": { "shape": "block", "size": [80, 60, 30], "zero": [40, 30, 30] } }, "tools": { "1": { "kind": "end-mill", "diameter": 12, "teeth": 4 } } }';
const PROGRAM = (place: string, feed: string) =>
  `G21 G17 G40 G49 G80 G90 G94\nT1 M6\nS2500 M3\nG54 G0 ${place}\nG43 H1 Z20.\nZ2.\nG1 Z-4. ${feed}\nX30. F400.\nG0 Z20.\nM30\n`;

/** An end mill that goes straight down at the feed it mills with. */
export const plungeFullFeed: Rule = {
  code: 'plunge-full-feed',
  title: 'Plunges at full feed',
  family: 'cutting',
  severity: 'warning',
  means:
    'An end mill cuts badly at its centre: straight down at the feed of the side cut it chips its corners, or stops the spindle.',
  cure: 'Ramp or helix in, or plunge at a third to a half of the feed.',
  fine_when: 'There is a hole already, or the place is outside the part.',
  source: 'a third to a half of the feed: common practice, no source',
  needs: ['tool.kind', 'tool.diameter'],
  applies: use => use.tool?.kind !== undefined && KINDS.has(use.tool.kind.value),
  tool(use, program, report) {
    const sideways = Math.max(...use.parts.map(p => (p.cut_length_mm > p.plunge_mm ? p.run[RUN.feed] : 0)));
    const diameter = use.tool?.diameter_mm?.value ?? 0;
    for (const part of use.parts) {
      if (part.plunge_line < 0 || part.plunge_mm < 0.1 * diameter) continue;
      const feed = part.run[RUN.feed];
      if (!(feed >= 0.9 * sideways) || sideways === 0) continue;
      const at = plungeInBlock(program, part);
      if (at === undefined) continue;
      const sure = use.tool?.kind !== undefined && isConfirmed(use.tool.kind.origin);
      const show = (value: number) => formatQuantity('feed_mm_min', value, program.shown);
      report({
        at: program.blockPlace(at),
        severity: sure ? 'warning' : 'information',
        message: `Chips the corners: ${toolName(use)} goes straight down into the block at ${show(feed)}, the feed of its side cut. Ramp in, or write about ${show(sideways / 3)}.`,
      });
      return;
    }
  },
  flagged: [
    {
      name: 'into the middle of the block',
      program: PROGRAM('X0. Y0.', 'F400.').replace('G1 Z-4. F400.\n', 'G1 Z-4. F400.\n^^^^^^^^^^^^^\n'),
      sheet,
    },
  ],
  silent: [
    { name: 'at a third', program: PROGRAM('X0. Y0.', 'F130.'), sheet },
    { name: 'beside the block', program: PROGRAM('X-50. Y0.', 'F400.'), sheet },
    {
      name: 'the block is not known',
      program: PROGRAM('X0. Y0.', 'F400.'),
      sheet: sheet.replace(/"workpiece".*?\}\s*\},/, ''),
    },
  ],
};

/** Line of the first deep plunge over the stated block and into it; undefined when none is. */
function plungeInBlock(program: Program, part: Part): number | undefined {
  const stock = program.sheet?.workpiece?.stock;
  if (stock?.shape !== 'block' || !stock.zero_mm) return undefined;
  const zero = stock.zero_mm.value;
  const size = stock.size_mm.value;
  const cursor = program.reading.cursor(part.plunge_line, part.last_cut_line + 1);
  for (let i = 0; i < 2000 && cursor.next(); i++) {
    if (
      cursor.kind !== KIND.feed ||
      cursor.x !== cursor.x0 ||
      cursor.y !== cursor.y0 ||
      !(cursor.z < cursor.z0)
    )
      continue;
    const inside =
      cursor.x > -zero[0] &&
      cursor.x < size[0] - zero[0] &&
      cursor.y > -zero[1] &&
      cursor.y < size[1] - zero[1];
    if (inside && cursor.z < size[2] - zero[2] - 0.3) return cursor.line;
  }
  return undefined;
}
