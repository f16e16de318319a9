import type { Seen } from '../../cuts/step-scan.ts';
import type { Program } from '../../program.ts';
import type { Rule } from '../../rule.ts';
import type { ToolUse } from '../../tool-use.ts';
import { length, placeWords, watchPlaces } from './places.ts';

/** Touching along a face or a wall is no cut, mm. */
const TOUCH_MM = 0.1;
/** Places named of one tool. */
const NAMED = 12;

const hits = watchPlaces(
  (_use, program) => program.cuts !== undefined,
  sweep,
  step => ({
    down: isDown(step),
    depth_mm: sweep(step),
  }),
);

function isDown({ mill, down_mm, level_mm }: Seen): boolean {
  return mill !== undefined && down_mm > level_mm;
}

/** How deep a rapid goes into metal, mm. */
function sweep({ mill, lathe, rapid, trusted, removed_mm3 }: Seen): number {
  if (!rapid || !trusted || !(removed_mm3 > 0)) return 0;
  if (lathe) return lathe.radial_depth_mm > TOUCH_MM && removed_mm3 > 1 ? lathe.radial_depth_mm : 0;
  if (!mill || !(mill.axial_depth_mm > TOUCH_MM)) return 0;
  return mill.radial_width_mm > TOUCH_MM || mill.bottom_share > 0.02 ? mill.axial_depth_mm : 0;
}

/** Reports the rapids of a use that hit metal: those that go down, or the others. */
export function reportHits(
  use: ToolUse,
  program: Program,
  down: boolean,
  report: Parameters<NonNullable<Rule['tool']>>[2],
  words: (depth: string, place: string) => string,
): void {
  // where an assumed stock ends is not known well enough
  if (program.cuts?.assumed) return;
  const found = (hits.of(program, use) ?? []).filter(place => place.down === down).slice(0, NAMED);
  for (const place of found)
    report({
      at: program.blockPlace(place.line),
      message: `${words(length(program, place.depth_mm), placeWords(program, place.at))}`,
    });
}
