import type { Program } from '../program.ts';
import type { Rule } from '../rule.ts';
import { holesBefore, isTapped, mayHold, type PlacedHole, placedHoles } from './holes-at.ts';
import { tapped, tapSheet } from './tap-sheets.ts';

/** A tap goes where no hole was made, while its other places have one. */
export const tapPlaceUndrilled: Rule = {
  code: 'tap-place-undrilled',
  title: 'Tap where there is no hole',
  family: 'geometry',
  severity: 'error',
  means:
    'At this place no tool made a hole, at the other places one did: the tap is driven into solid material and breaks.',
  cure: 'Check the place against the drilling, or drill it too.',
  fine_when: 'The hole is there from an earlier operation.',
  source: 'common practice, no source',
  needs: [],
  program(program, report) {
    if (!mayHold(program, ['tap', 'reamer'])) return;
    const taps = placedHoles(program).filter(placed => isTapped(placed) || placed.kind === 'reamer');
    for (const tool of new Set(taps.map(tap => tap.tool))) {
      const own = taps.filter(tap => tap.tool === tool);
      if (own.length > 500) continue;
      const bare = own.filter(tap => holesBefore(program, tap).length === 0);
      if (bare.length === 0 || (bare.length === own.length && !besideAll(program, own))) continue;
      report({
        at: program.blockPlace(bare[0].hole.line),
        severity: program.sheet ? 'error' : 'warning',
        message: `Breaks the tool: T${tool} goes into solid material here, no tool has made a hole at this place. Check the position.`,
      });
    }
  },
  flagged: [
    {
      name: 'one place moved',
      program: tapped('-20.', 'G84 Z-14. R5. F500.\nX30.\nX55.\n^^^^\n').replace(
        'F150.\n',
        'F150.\nX30.\nX50.\n',
      ),
      sheet: tapSheet(6.8),
    },
  ],
  silent: [
    {
      name: 'the same places',
      program: tapped('-20.', 'G84 Z-14. R5. F500.\nX30.\nX50.\n').replace('F150.\n', 'F150.\nX30.\nX50.\n'),
      sheet: tapSheet(6.8),
    },
    {
      name: 'no hole of this program is tapped',
      program: tapped('-20.', 'G84 X70. Z-14. R5. F500.\nX80.\n'),
      sheet: tapSheet(6.8),
    },
  ],
};

/** A reamer that meets none of the holes, while the hole for its size is drilled in this program. */
function besideAll(program: Program, own: readonly PlacedHole[]): boolean {
  const size = own[0].kind === 'reamer' ? program.tool(own[0].tool)?.diameter_mm?.value : undefined;
  if (size === undefined) return false;
  return placedHoles(program).some(({ kind, tool, hole }) => {
    const drilled = program.tool(tool)?.diameter_mm?.value ?? Number.NaN;
    return kind === 'drill' && hole.line < own[0].hole.line && drilled < size && drilled > 0.9 * size;
  });
}
