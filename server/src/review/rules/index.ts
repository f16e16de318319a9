import type { Rule } from '../rule.ts';
import { chipLoadHigh } from './chip-load-high.ts';
import { chipLoadLow } from './chip-load-low.ts';
import { cssWithoutClamp } from './css-without-clamp.ts';
import { noFeed } from './no-feed.ts';
import { arcMissesEnd, codeUnknown, groupConflict } from './problem-rules.ts';
import { spindleStopped } from './spindle-stopped.ts';
import { surfaceSpeedHigh } from './surface-speed-high.ts';
import { surfaceSpeedLow } from './surface-speed-low.ts';

/** The one table of rules. Settings, manual pages, the SARIF list and `explain` are made from it. */
export const rules: readonly Rule[] = [
  arcMissesEnd,
  chipLoadHigh,
  chipLoadLow,
  codeUnknown,
  cssWithoutClamp,
  groupConflict,
  noFeed,
  spindleStopped,
  surfaceSpeedHigh,
  surfaceSpeedLow,
];

const byCode = new Map(rules.map(rule => [rule.code, rule]));

export function ruleFor(code: string): Rule | undefined {
  return byCode.get(code);
}
