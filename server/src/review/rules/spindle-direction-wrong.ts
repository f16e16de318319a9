import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, lineOfCode } from '../lookup.ts';
import type { Rule } from '../rule.ts';
import type { ToolUse } from '../tool-use.ts';
import { isMillingCutter } from '../working.ts';
import { ISO, LATHE_A, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';

const HOLE_TOOLS = new Set(['drill', 'spot-drill', 'center-drill', 'reamer', 'tap', 'bore']);

/** The spindle turns against the tool's hand. */
export const spindleDirectionWrong: Rule = {
  code: 'spindle-direction-wrong',
  title: "Spindle turns against the tool's hand",
  family: 'state',
  severity: 'error',
  means: 'The tool runs backwards: it rubs on its back, burns, and breaks.',
  cure: 'M3 for right-hand tools, M4 for left-hand ones.',
  fine_when: 'The tool has the other hand: say so with hand in the setup sheet.',
  source: 'ISO 3002-1 (hand of cutting tools), from memory',
  needs: [],
  explains: ['chip-load-low', 'chip-load-high'],
  program(program, report) {
    for (const use of cuttingUses(program)) {
      const hand = use.tool?.hand?.value;
      const kind = use.tool?.kind?.value;
      const turnsItself = kind !== undefined && (isMillingCutter(kind) || HOLE_TOOLS.has(kind));
      const alone = program.kind === 'lathe' && program.sheet !== undefined && othersTurnRight(use);
      if (!hand && !alone && !(program.kind === 'mill' && turnsItself)) continue;
      const wanted = hand === 'left' ? -1 : 1;
      const part = use.parts.find(p => p.cut_steps > 0 && p.run[RUN.direction] === -wanted);
      if (!part || [740, 843].includes(part.run[RUN.motion])) continue;
      const line = lineOfCode(
        program,
        'M',
        wanted === 1 ? [4, 14] : [3, 13],
        use.change_line,
        part.first_cut_line,
      );
      const code = wanted === 1 ? 'M3' : 'M4';
      const at = program.wordPlace(line >= 0 ? line : part.first_cut_line, 'M', wanted === 1 ? 4 : 3);
      report({
        at,
        severity: hand ? 'error' : turnsItself || (alone && isLike(use)) ? 'warning' : 'information',
        message: hand
          ? `Runs backwards and breaks: ${toolName(use)} is a ${hand}-hand tool and the spindle turns the other way. Write ${code}.`
          : `Runs backwards unless it is a left-hand tool: ${toolName(use)} cuts with M4. Write M3, or say its hand in the setup sheet.`,
        ...(line >= 0
          ? { fixes: [{ title: `Write ${code}`, grade: 'asks', edits: [{ ...at, text: code }] }] }
          : {}),
      });
    }

    /** Another tool of the same kind turns the other way; threads are often cut with the tool turned over. */
    function isLike(use: ToolUse): boolean {
      const kind = use.tool?.kind?.value;
      if (kind === undefined || kind === 'thread-turn') return false;
      const turns = kind === 'turn' || kind === 'bore-bar';
      return cuttingUses(program).some(each => {
        const other = each.tool?.kind?.value;
        return (
          each.number !== use.number &&
          (other === kind || (turns && (other === 'turn' || other === 'bore-bar')))
        );
      });
    }

    /** At least two other tools of a lathe turn clockwise and none the other way. */
    function othersTurnRight(use: ToolUse): boolean {
      const others = cuttingUses(program).filter(each => each.number !== use.number);
      return (
        others.length >= 2 &&
        others.every(each => each.parts.every(p => p.cut_steps === 0 || p.run[RUN.direction] === 1))
      );
    }
  },
  flagged: [
    {
      name: 'M4 with an end mill',
      program: `${MILL_MM}${milled(1).replace('S3000 M3\n', 'S3000 M4\n      ^^\n')}M30\n`,
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "end-mill", "diameter": 10 } } }',
    },
    {
      name: 'a left-hand turning tool with M3',
      program: 'G21 G18 G40 G99\nT0101\nG97 S800 M3\n         ^^\nG0 X62. Z2.\nG1 Z-10. F0.2\nM30\n',
      sheet:
        '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "tools": { "1": { "kind": "turn", "hand": "left" } } }',
    },
  ],
  silent: [
    {
      name: 'a left-hand tool with M4',
      program: `${MILL_MM}${milled(1).replace('S3000 M3', 'S3000 M4')}M30\n`,
      sheet:
        '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "tools": { "1": { "kind": "end-mill", "diameter": 10, "hand": "left" } } }',
    },
    {
      name: 'the tool is not known',
      program: `${MILL_MM}${milled(1).replace('S3000 M3', 'S3000 M4')}M30\n`,
      options: ISO,
    },
    {
      name: 'a lathe whose turret side is not known',
      program: 'G21 G18 G40 G99\nT0101\nG97 S800 M4\nG0 X62. Z2.\nG1 Z-10. F0.2\nM30\n',
      options: LATHE_A,
    },
  ],
};
