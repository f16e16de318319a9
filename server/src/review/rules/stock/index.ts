import type { Rule } from '../../rule.ts';
import { airCutting } from './air-cutting.ts';
import { barOverhang } from './bar-overhang.ts';
import { bladeTooDeep } from './blade-too-deep.ts';
import { bodyTouchesStock } from './body-touches-stock.ts';
import { chipThin } from './chip-thin.ts';
import { cutBelowStock } from './cut-below-stock.ts';
import { deflectionOverAllowance } from './deflection-over-allowance.ts';
import { drillDeeperThanFlutes } from './drill-deeper-than-flutes.ts';
import { drillThrust } from './drill-thrust.ts';
import { engagementJump } from './engagement-jump.ts';
import { feedRoom } from './feed-room.ts';
import { fluteTooShort } from './flute-too-short.ts';
import { holderHit } from './holder-hit.ts';
import { holdingWeak } from './holding-weak.ts';
import { holeBesideStock } from './hole-beside-stock.ts';
import { keepOutHit } from './keep-out-hit.ts';
import { overTravel } from './over-travel.ts';
import { plungeAtFullFeed } from './plunge-at-full-feed.ts';
import { plungeNotCentreCutting } from './plunge-not-centre-cutting.ts';
import { powerOver } from './power-over.ts';
import { rapidIntoStock } from './rapid-into-stock.ts';
import { rapidThroughStock } from './rapid-through-stock.ts';
import { rotaryInSwing } from './rotary-in-swing.ts';
import { rubbing } from './rubbing.ts';
import { shortSegments } from './short-segments.ts';
import { slotTooDeep } from './slot-too-deep.ts';
import { stickoutTooShort } from './stickout-too-short.ts';
import { timeOverQuote } from './time-over-quote.ts';
import { toolDull } from './tool-dull.ts';
import { toolStress } from './tool-stress.ts';
import { torqueOver } from './torque-over.ts';
import { turningTooDeep } from './turning-too-deep.ts';
import { turningTooShallow } from './turning-too-shallow.ts';
import { workSlender } from './work-slender.ts';

/** Rules about what the tool meets: stock, holder, jaws, loads and times. */
export const stockRules: readonly Rule[] = [
  airCutting,
  barOverhang,
  bladeTooDeep,
  bodyTouchesStock,
  chipThin,
  cutBelowStock,
  deflectionOverAllowance,
  drillDeeperThanFlutes,
  drillThrust,
  engagementJump,
  feedRoom,
  fluteTooShort,
  holeBesideStock,
  holderHit,
  holdingWeak,
  keepOutHit,
  overTravel,
  plungeAtFullFeed,
  plungeNotCentreCutting,
  powerOver,
  rapidIntoStock,
  rapidThroughStock,
  rotaryInSwing,
  rubbing,
  shortSegments,
  slotTooDeep,
  stickoutTooShort,
  timeOverQuote,
  toolDull,
  toolStress,
  torqueOver,
  turningTooDeep,
  turningTooShallow,
  workSlender,
];
