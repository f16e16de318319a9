import { isAbsent } from '../../../cutting/result.ts';
import { groovingLimits } from '../../../cutting/turning.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Rule } from '../../rule.ts';
import { statedBar } from '../../stated-bar.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { assumedWords, length, onAssumedStock } from './places.ts';
import { LATHE_HEAD, latheSheet } from './sample-sheets.ts';

/** The deepest place that a blade goes to under the metal beside it. */
const grooves = watchSteps<{ line: number; depth_mm: number } | undefined>((use, program) => {
  if (!applies(use)) return undefined;
  const outer = statedBar(program)?.radius_mm ?? Number.NaN;
  const walls = new Map<string, number>();
  let deepest: { line: number; depth_mm: number } | undefined;
  return {
    see({ step, lathe, rapid, line }) {
      if (rapid || !lathe?.cuts || Math.abs(step.z - step.z0) > 0.01 || !(step.x < step.x0)) return;
      const key = step.z.toFixed(1);
      if (walls.size >= 1000 && !walls.has(key)) return;
      const wall = Math.min(outer, Math.max(walls.get(key) ?? 0, lathe.outer_radius_mm));
      walls.set(key, wall);
      const depth_mm = wall - Math.max(0, step.x);
      if (depth_mm > (deepest?.depth_mm ?? 0)) deepest = { line, depth_mm };
    },
    result: () => deepest,
  };
});

function applies({ tool }: ToolUse): boolean {
  const kind = tool?.kind?.value;
  return kind === 'groove' || kind === 'part-off';
}

const BLADE = { kind: 'part-off', width: 3 };
const parting = (x: number, mark = '') => `${LATHE_HEAD}G0 X54. Z-20.\nG1 X${x} F0.08\n${mark}G0 X60.\n`;

/** A blade that goes deeper than it stands out, or than its width bears. */
export const bladeTooDeep: Rule = {
  code: 'blade-too-deep',
  title: 'Blade too deep for its width',
  family: 'cutting',
  severity: 'information',
  means:
    'The blade reaches deeper than its width bears: it drifts sideways, chatters and breaks, or its holder runs into the bar.',
  cure: 'Take a wider blade, part or groove in two steps, or widen the slot on the way down.',
  fine_when: 'A reinforced blade is made for this depth.',
  source: 'stickout 8 to 10 times the width: common practice, no source',
  needs: ['stock', 'tool.kind'],
  applies: (use, program) => applies(use) && program.kind === 'lathe',
  tool(use, program, report) {
    const groove = grooves.of(program, use);
    const width = use.tool?.width_mm?.value;
    const limits = groovingLimits({ width_mm: width });
    if (!groove || isAbsent(limits) || width === undefined) return;
    const stickout = use.tool?.stickout_mm?.value;
    const hits = stickout !== undefined && groove.depth_mm > stickout;
    if (!hits && groove.depth_mm <= limits.greatest_stickout_mm.high) return;
    report({
      at: program.blockPlace(groove.line),
      ...(hits ? { severity: 'error' as const } : {}),
      message: hits
        ? `Holder hits the bar: ${toolName(use)} stands out ${length(program, stickout)} and goes ${length(program, groove.depth_mm)} deep. Let it stand out further.${assumedWords(program)}`
        : `May break the blade: ${toolName(use)} goes ${length(program, groove.depth_mm)} deep, ${(groove.depth_mm / width).toFixed(0)} times its width; 8 to 10 times is usual. Take a wider blade, or two steps.${assumedWords(program)}`,
      ...onAssumedStock(program),
    });
  },
  flagged: [
    {
      name: 'a blade of 2 mm through 50 mm',
      program: parting(-1, '^^^^^^^^^^^^\n'),
      sheet: latheSheet({ ...BLADE, width: 2 }),
    },
    {
      name: 'deeper than it stands out',
      program: parting(0, '^^^^^^^^^^^\n'),
      sheet: latheSheet({ ...BLADE, stickout: 20 }),
    },
  ],
  silent: [
    { name: 'a blade of 3 mm through 50 mm', program: parting(-1), sheet: latheSheet(BLADE) },
    {
      name: 'a shallow groove',
      program: parting(44),
      sheet: latheSheet({ ...BLADE, width: 2, stickout: 20 }),
    },
  ],
};
