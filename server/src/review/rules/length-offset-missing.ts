import { RUN } from '../../rs274/steps.ts';
import { cuttingUses, errorWithSheet } from '../lookup.ts';
import type { Part } from '../part.ts';
import type { Rule } from '../rule.ts';
import { ISO, MILL_MM, milled } from './sample-programs.ts';
import { toolName } from './words.ts';
import { FOLLOW_FROM_WRONG_Z } from './wrong-z.ts';

/** A tool that cuts without its length offset while others have theirs. */
export const lengthOffsetMissing: Rule = {
  code: 'length-offset-missing',
  title: 'No length offset for this tool',
  family: 'state',
  severity: 'warning',
  means:
    'The tool moves in Z with no length offset, though other tools of the program have theirs: it stops short, or runs into the part by its whole length.',
  cure: 'Write G43 with H and the tool number on the first move in Z.',
  fine_when: 'This tool sets the zero, or its length is in the work offset.',
  source: 'NISTIR 6556 section 3.5.10 (G43), from memory; common practice, no source',
  needs: [],
  explains: FOLLOW_FROM_WRONG_Z,
  program(program, report) {
    if (program.kind === 'lathe') return;
    const uses = cuttingUses(program);
    const with_offset = uses.filter(use => use.parts.some(part => hasOffset(part)));
    if (with_offset.length === 0 || with_offset.length === uses.length) {
      if (with_offset.length === 0) return;
    }
    for (const use of uses) {
      const bare = use.parts.find(part => part.cut_steps > 0 && !hasOffset(part));
      if (!bare) continue;
      const had = use.parts.some(hasOffset);
      const place = firstInZ(use.parts) ?? bare;
      const line = had ? bare.first_cut_line : place.first_line;
      report({
        at: program.blockPlace(line),
        severity: errorWithSheet(program),
        message: had
          ? `Runs off by its whole length: the length offset of ${toolName(use)} is cancelled before this cut. Move G49 behind it.`
          : `Runs off by its whole length: ${toolName(use)} cuts without a length offset. Write G43 H${use.number} on its first move in Z.`,
      });
    }
  },
  flagged: [
    {
      name: 'G43 left out at the second tool',
      program: `${MILL_MM}${milled(1)}G49\nT2 M6\nS3000 M3\nG54 G0 X0 Y0\n^^^^^^^^^^^^\nZ25.\nZ2.\nG1 Z-2. F100.\nX50.\nG0 Z25.\nM30\n`,
      options: ISO,
    },
    {
      name: 'G49 before the cut',
      program: `${MILL_MM}T1 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 H1 Z25.\nG49\nZ2.\nG1 Z-2. F100.\n^^^^^^^^^^^^^\nX50.\nG0 Z25.\nM30\n`,
      options: ISO,
    },
  ],
  silent: [
    { name: 'each tool has its own', program: `${MILL_MM}${milled(1)}${milled(2)}M30\n`, options: ISO },
    {
      name: 'a machine that knows lengths by itself: no G43 anywhere',
      program: `${MILL_MM}T1 M6\nS3000 M3\nG0 X0 Y0\nZ2.\nG1 Z-2. F100.\nX50.\nG0 Z25.\nT2 M6\nS2000 M3\nG0 X0\nZ2.\nG1 Z-2. F100.\nX50.\nM30\n`,
      options: ISO,
    },
    {
      name: 'the strict dialect takes the tool number without H',
      program: `${MILL_MM}${milled(1)}T2 M6\nS3000 M3\nG54 G0 X0 Y0\nG43 Z25.\nZ2.\nG1 Z-2. F100.\nX50.\nG0 Z25.\nM2\n`,
      options: { dialect: 'ngc', kind: 'mill' },
    },
  ],
};

function hasOffset(part: Part): boolean {
  return part.run[RUN.length_offset] > 0;
}

function firstInZ(parts: readonly Part[]): Part | undefined {
  return parts.find(part => part.rapid_steps > 0);
}
