import { holderBody } from '../../cuts/holder-body.ts';
import { holderContacts } from '../../cuts/lathe-collisions.ts';
import { watchSteps } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { toolName } from '../words.ts';
import { placeWords } from './places.ts';
import { LATHE_HEAD, latheSheet, TURNING_TOOL } from './sample-sheets.ts';

interface Hit {
  line: number;
  what: string;
  rapid: boolean;
  at: readonly [number, number, number];
}

/** The first contact of a use with each thing that its cutting end has not met before. */
const hits = watchSteps<readonly Hit[]>((use, program) => {
  const { cuts } = program;
  const body = holderBody(use.tool);
  if (!body || cuts?.kind !== 'lathe') return undefined;
  const found = new Map<string, Hit>();
  const met = new Set<string>();
  return {
    see({ step, line, rapid }) {
      for (const { box } of cuts.collisions(step)) met.add(cuts.keepOutName(step, box));
      for (const { what, at } of holderContacts(program, step, body))
        if (!met.has(what) && !found.has(what)) found.set(what, { line, what, rapid, at });
    },
    result: () => [...found.values()],
  };
});

function applies(_use: ToolUse, { kind, sheet }: Program): boolean {
  if (kind !== 'lathe') return false;
  return [...(sheet?.setups?.values() ?? [])].some(({ keep_out }) => keep_out?.length);
}

type Corner = readonly [number, number, number];
const boxes = (...keep_out: { what: string; box: readonly [Corner, Corner] }[]) => ({
  setups: { G54: { keep_out } },
});
/** Jaws up to Z-30 around the bar of 50 mm, as far out as 140 mm. */
const JAWS = boxes({
  what: 'chuck jaw',
  box: [
    [25, 0, -60],
    [70, 0, -30],
  ],
});
/** A tailstock that holds the bar, its body from Z20 on. */
const TAILSTOCK = boxes({
  what: 'tailstock',
  box: [
    [-40, -40, 20],
    [40, 40, 90],
  ],
});
const sheet = (tool: Record<string, unknown>, there = JAWS) => latheSheet(tool, there);
/** A shank of 25 mm, of which 12 stand before the tip, from 40 mm above it on. */
const BOXED = { ...TURNING_TOOL, holder_box: { z: [-12, 13], x: [40, 120] } };
const DRILL = { kind: 'drill', diameter: 16, stickout: 60, holder_diameter: 60 };
const BAR = {
  ...{ kind: 'bore-bar', nose_radius: 0.4, edge_angle_deg: 95 },
  ...{ shank_diameter: 16, stickout: 50, holder_diameter: 80 },
};
const turned = (z: number, mark = '') => `${LATHE_HEAD}G0 X46. Z2.\nG1 Z${z}. F0.2\n${mark}G0 X60.\nZ2.\n`;
const drilled = (z: number, mark = '') => `${LATHE_HEAD}G0 X0. Z5.\nG1 Z${z}. F0.2\n${mark}G0 Z5.\n`;
const bored = (z: number, mark = '') => `${LATHE_HEAD}G0 X30. Z5.\nG1 Z${z}. F0.1\n${mark}G0 X28.\nZ5.\n`;

/** The holder of a lathe tool runs into chuck, jaws or tailstock. */
export const holderHit: Rule = {
  code: 'holder-hit',
  title: 'Holder runs into chuck or tailstock',
  family: 'geometry',
  severity: 'error',
  machine: 'lathe',
  means:
    'The edge passes, but what holds the tool runs into the jaws, the chuck, the tailstock or a steady rest of the setup sheet.',
  cure: 'Clamp the part further out, let the tool stand out further, take a holder of another style, or correct holder_box or the box in the sheet.',
  fine_when:
    'The holder is slimmer there than sheet or designation say, or is not held along X: state holder_box.',
  source:
    'keep-out boxes of the setup sheet; holder_box, stickout and holder diameter as stated; shank by designation: ISO 5608, f series from memory',
  needs: ['stock', 'tool.kind', 'tool.holder_body'],
  applies,
  tool(use, program, report) {
    const assumed = holderBody(use.tool)?.assumed;
    for (const { line, what, rapid, at } of hits.of(program, use) ?? []) {
      const where = `${rapid ? ' at rapid' : ''} at ${placeWords(program, at)}`;
      report({
        at: program.blockPlace(line),
        ...(assumed === undefined ? {} : { assumed: true }),
        message:
          assumed === undefined
            ? `Hits the ${what}: the holder of ${toolName(use)} runs into it${where}. Clamp part or tool further out.`
            : `May hit the ${what}: the holder of ${toolName(use)}, ${assumed}, comes into it${where}. Look at it, or state holder_box.`,
      });
    }
  },
  flagged: [
    {
      name: 'a stated holder stands before the tip',
      program: turned(-20, '^^^^^^^^^^^^^\n'),
      sheet: sheet(BOXED),
    },
    {
      name: 'a neutral holder by its designation',
      program: turned(-20, '^^^^^^^^^^^^^\n'),
      sheet: sheet({ ...TURNING_TOOL, holder: 'MVVNN2525M16' }),
    },
    {
      name: 'the holder of a drill meets the jaws',
      program: drilled(-95, '^^^^^^^^^^^^^\n'),
      sheet: sheet(DRILL),
    },
    {
      name: 'the block of a boring bar meets the jaws',
      program: bored(-85, '^^^^^^^^^^^^^\n'),
      sheet: sheet(BAR),
    },
    {
      name: 'a holder that reaches back to the tailstock',
      program: `${LATHE_HEAD}G0 X90. Z2.\nX46.\n^^^^\nG1 Z-20. F0.2\nG0 X60.\n`,
      sheet: sheet({ ...BOXED, holder_box: { z: [-5, 20], x: [10, 120] } }, TAILSTOCK),
    },
  ],
  silent: [
    {
      name: 'beside the tailstock, the holder on the other side of the tip',
      program: turned(-20),
      sheet: sheet({ ...BOXED, holder_box: { z: [-12, 13], x: [10, 120] } }, TAILSTOCK),
    },
    { name: 'it stops where the holder just passes', program: turned(-18), sheet: sheet(BOXED) },
    {
      name: 'a holder whose tip leads',
      program: turned(-29),
      sheet: sheet({ ...TURNING_TOOL, holder: 'PCLNR2525M12' }),
    },
    {
      name: 'a neutral holder that stops 13 mm before the jaws',
      program: turned(-17),
      sheet: sheet({ ...TURNING_TOOL, holder: 'MVVNN2525M16' }),
    },
    { name: 'the holder is not stated', program: turned(-29), sheet: sheet(TURNING_TOOL) },
    { name: 'the drill stands out far enough', program: drilled(-89), sheet: sheet(DRILL) },
    { name: 'the bar stands out far enough', program: bored(-79), sheet: sheet(BAR) },
    {
      name: 'a left-hand holder whose way is not stated',
      program: turned(-29),
      sheet: sheet({ ...TURNING_TOOL, holder: 'PCLNL2525M12' }),
    },
  ],
};
