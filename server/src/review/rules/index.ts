import type { Rule } from '../rule.ts';
import { allowanceWrongWay } from './allowance-wrong-way.ts';
import { arcTurnsBack } from './arc-turns-back.ts';
import { blocksAfterEnd } from './blocks-after-end.ts';
import { boreExitInX } from './bore-exit-in-x.ts';
import { chipLoadHigh } from './chip-load-high.ts';
import { chipLoadLow } from './chip-load-low.ts';
import { chuckReached } from './chuck-reached.ts';
import { chuckSpeedOver } from './chuck-speed-over.ts';
import { compensationLeftOn } from './compensation-left-on.ts';
import { compensationWithoutOffset } from './compensation-without-offset.ts';
import { compensationWrongSide } from './compensation-wrong-side.ts';
import { coolantForgotten, coolantOffGummy, coolantOnMagnesium } from './coolant-rules.ts';
import { cssOnCentre } from './css-on-centre.ts';
import { cssWithoutClamp } from './css-without-clamp.ts';
import { cycleLeftOn } from './cycle-left-on.ts';
import { drillCutsSideways } from './drill-cuts-sideways.ts';
import { drillOffAxis } from './drill-off-axis.ts';
import { dwellInWorkHardening } from './dwell-in-work-hardening.ts';
import { dwellLong } from './dwell-long.ts';
import { dwellLongInCycle } from './dwell-long-in-cycle.ts';
import { feedInherited } from './feed-inherited.ts';
import { feedModeLeftOn } from './feed-mode-left-on.ts';
import { feedOverMachine } from './feed-over-machine.ts';
import { incrementalLeftOn } from './incremental-left-on.ts';
import { lengthOffsetForeign } from './length-offset-foreign.ts';
import { lengthOffsetMissing } from './length-offset-missing.ts';
import { noFeed } from './no-feed.ts';
import { notAProgram } from './not-a-program.ts';
import { offsetAtOtherAngle } from './offset-at-other-angle.ts';
import { peckNoEffect } from './peck-no-effect.ts';
import { peckTiny } from './peck-tiny.ts';
import { peckTooDeep } from './peck-too-deep.ts';
import { planeLeftOn } from './plane-left-on.ts';
import { pointMissing } from './point-missing.ts';
import {
  compensationState,
  cycleIncomplete,
  cycleNotAllowed,
  cycleRBelowZ,
  cycleWordsInherited,
} from './problem-cycles.ts';
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
  blockTooLarge,
  commentUnclosed,
  letterOForZero,
  letterRepeated,
  numberBlank,
  numberComma,
  numberUnreadable,
  textOutsideComment,
} from './problem-words.ts';
import { programEndMissing } from './program-end-missing.ts';
import { radiusOffsetForeign } from './radius-offset-foreign.ts';
import { referenceThroughWork } from './reference-through-work.ts';
import { speedInherited } from './speed-inherited.ts';
import { speedOverMachine } from './speed-over-machine.ts';
import { spindleDirectionWrong } from './spindle-direction-wrong.ts';
import { spindleNotRestarted } from './spindle-not-restarted.ts';
import { spindleStopped } from './spindle-stopped.ts';
import { spindleWithoutSpeed } from './spindle-without-speed.ts';
import { spotAngleSmall } from './spot-angle-small.ts';
import { stockRules } from './stock/index.ts';
import { surfaceSpeedHigh } from './surface-speed-high.ts';
import { surfaceSpeedLow } from './surface-speed-low.ts';
import { tapDeeperThanHole } from './tap-deeper-than-hole.ts';
import { tapFeedMismatch } from './tap-feed-mismatch.ts';
import { tapHoleSize } from './tap-hole-size.ts';
import { tapInWrongCycle } from './tap-in-wrong-cycle.ts';
import { tapPlaceUndrilled } from './tap-place-undrilled.ts';
import { threadCycleWords } from './thread-cycle-words.ts';
import { threadMillHelix } from './thread-mill-helix.ts';
import { cssInThread, threadLeadChanges, threadLeadMismatch, threadRunUpShort } from './thread-rules.ts';
import { toolChangeSameTool } from './tool-change-same-tool.ts';
import { toolContradicts, toolNotInSheet } from './tool-knowledge-rules.ts';
import { toolNeverChanged } from './tool-never-changed.ts';
import { turretClearanceShort } from './turret-clearance-short.ts';
import { turretOffsetMissing } from './turret-offset-missing.ts';
import { unitsContradict } from './units-contradict.ts';
import { unitsNotStated } from './units-not-stated.ts';
import { valueTenTimes } from './value-ten-times.ts';
import { workOffsetOdd } from './work-offset-odd.ts';
import { zSignFlipped } from './z-sign-flipped.ts';

/** The one table of rules. Settings, manual pages, the SARIF list and `explain` are made from it. */
export const rules: readonly Rule[] = [
  arcMissesEnd,
  axisWordsIdle,
  blockTooLarge,
  boreExitInX,
  chipLoadHigh,
  chipLoadLow,
  chuckSpeedOver,
  codeUnknown,
  commentUnclosed,
  compensationImpossible,
  compensationLeftOn,
  compensationState,
  compensationWithoutOffset,
  coolantForgotten,
  coolantOffGummy,
  coolantOnMagnesium,
  cornerNotMade,
  cssInThread,
  cssOnCentre,
  cssWithoutClamp,
  cycleIncomplete,
  cycleLeftOn,
  cycleNotAllowed,
  cycleRBelowZ,
  cycleWordsInherited,
  dwellInWorkHardening,
  dwellLongInCycle,
  dwellWithoutTime,
  expressionBad,
  feedInherited,
  feedModeLeftOn,
  feedOverMachine,
  flowUnmatched,
  groupConflict,
  incrementalLeftOn,
  lengthOffsetForeign,
  lengthOffsetMissing,
  letterOForZero,
  letterRepeated,
  neverEnds,
  noFeed,
  notAProgram,
  notFollowed,
  numberBlank,
  numberComma,
  numberUnreadable,
  peckTooDeep,
  planeLeftOn,
  pointMissing,
  programAlarm,
  programEndMissing,
  radiusOffsetForeign,
  referenceThroughWork,
  speedInherited,
  speedOverMachine,
  spindleDirectionWrong,
  spindleNotRestarted,
  spindleStopped,
  spindleWithoutSpeed,
  spotAngleSmall,
  subprogramMissing,
  surfaceSpeedHigh,
  surfaceSpeedLow,
  tapDeeperThanHole,
  tapFeedMismatch,
  tapHoleSize,
  tapPlaceUndrilled,
  targetMissing,
  textOutsideComment,
  threadLeadChanges,
  threadLeadMismatch,
  threadRunUpShort,
  toolChangeSameTool,
  toolChangeWithoutTool,
  toolContradicts,
  toolNotInSheet,
  turretClearanceShort,
  turretOffsetMissing,
  unitsNotStated,
  valueImpossible,
  valueNotKnown,
  valueTenTimes,
  wordMissing,
  zSignFlipped,
  arcTurnsBack,
  blocksAfterEnd,
  drillCutsSideways,
  peckNoEffect,
  tapInWrongCycle,
  threadCycleWords,
  toolNeverChanged,
  unitsContradict,
  workOffsetOdd,
  dwellLong,
  drillOffAxis,
  compensationWrongSide,
  threadMillHelix,
  peckTiny,
  allowanceWrongWay,
  offsetAtOtherAngle,
  chuckReached,
  ...stockRules,
].sort((a, b) => (a.code < b.code ? -1 : 1));

const byCode = new Map(rules.map(rule => [rule.code, rule]));

export function ruleFor(code: string): Rule | undefined {
  return byCode.get(code);
}
