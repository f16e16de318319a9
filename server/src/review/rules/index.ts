import type { Rule } from '../rule.ts';
import { chipLoadHigh } from './chip-load-high.ts';
import { chipLoadLow } from './chip-load-low.ts';
import { cssWithoutClamp } from './css-without-clamp.ts';
import { noFeed } from './no-feed.ts';
import { cycleIncomplete, cycleNotAllowed, cycleRBelowZ, cycleWordsInherited } from './problem-cycles.ts';
import {
  expressionBad,
  flowUnmatched,
  neverEnds,
  programAlarm,
  subprogramMissing,
  targetMissing,
  valueNotKnown,
} from './problem-flow.ts';
import { arcMissesEnd, codeUnknown, groupConflict } from './problem-rules.ts';
import {
  compensationImpossible,
  cornerNotMade,
  dwellWithoutTime,
  notFollowed,
  toolChangeWithoutTool,
  valueImpossible,
  wordMissing,
} from './problem-values.ts';
import {
  axisWordsIdle,
  commentUnclosed,
  letterOForZero,
  letterRepeated,
  numberBlank,
  numberComma,
  numberUnreadable,
  textOutsideComment,
} from './problem-words.ts';
import { spindleStopped } from './spindle-stopped.ts';
import { surfaceSpeedHigh } from './surface-speed-high.ts';
import { surfaceSpeedLow } from './surface-speed-low.ts';

/** The one table of rules. Settings, manual pages, the SARIF list and `explain` are made from it. */
export const rules: readonly Rule[] = [
  arcMissesEnd,
  axisWordsIdle,
  chipLoadHigh,
  chipLoadLow,
  codeUnknown,
  commentUnclosed,
  compensationImpossible,
  cornerNotMade,
  cssWithoutClamp,
  cycleIncomplete,
  cycleNotAllowed,
  cycleRBelowZ,
  cycleWordsInherited,
  dwellWithoutTime,
  expressionBad,
  flowUnmatched,
  groupConflict,
  letterOForZero,
  letterRepeated,
  neverEnds,
  noFeed,
  notFollowed,
  numberBlank,
  numberComma,
  numberUnreadable,
  programAlarm,
  spindleStopped,
  subprogramMissing,
  surfaceSpeedHigh,
  surfaceSpeedLow,
  targetMissing,
  textOutsideComment,
  toolChangeWithoutTool,
  valueImpossible,
  valueNotKnown,
  wordMissing,
];

const byCode = new Map(rules.map(rule => [rule.code, rule]));

export function ruleFor(code: string): Rule | undefined {
  return byCode.get(code);
}
