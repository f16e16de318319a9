/**
 * Cutting mathematics for milling, turning, drilling, tapping and threading. Pure functions, no dependency; millimetres,
 * minutes, newtons, kilowatts and degrees at the interface. A function gives a number (or an estimate with its range), or
 * says in words why it cannot.
 */

export {
  type ArcSide,
  centreFeedOnArc,
  effectiveWidthOnArc,
  engagementOnArc,
  sharpCornerEngagement,
  wallFeedOnArc,
} from './arcs.ts';
export * from './axial-thinning.ts';
export * from './boring.ts';
export * from './chip-thickness.ts';
export type { Column, ColumnResult } from './compute.ts';
export { inputWords } from './compute.ts';
export * from './constant-surface-speed.ts';
export {
  barDeflection,
  bendingStress,
  ELASTIC_MODULUS_N_MM2,
  endMillDeflection,
  FLUTED_DIAMETER_SHARE,
  secondMoment,
  steppedDeflection,
  type ToolSection,
} from './deflection.ts';
export * from './designation-holder.ts';
export * from './designation-insert.ts';
export { DESIGNATION_SOURCES, type InsertShape } from './designation-letters.ts';
export * from './drill-handbook.ts';
export * from './drilling.ts';
export * from './economics.ts';
export * from './effective-diameter.ts';
export * from './engagement.ts';
export * from './feeds.ts';
export * from './force-revolution.ts';
export {
  formatQuantity,
  formatTime,
  type Shown,
  type ShownUnits,
  shownUnit,
  showQuantity,
} from './format.ts';
export type { FormatKind } from './format-kinds.ts';
export * from './holding.ts';
export * from './hole-cycles.ts';
export {
  cuttingForce,
  cuttingForceColumn,
  FORCE_FACTORS,
  FORCE_SCATTER,
  type ForceCorrection,
  feedAndPassiveForce,
  forceCorrection,
  type KienzleFit,
  kienzleFromTwoPoints,
  rakeCorrection,
  specificForce,
  speedCorrection,
  THIN_CHIP_MM,
} from './kienzle.ts';
export * from './look-ahead.ts';
export {
  type MillingCut,
  meanChipShortcutRatio,
  millingPower,
  millingPowerColumn,
  millingToothForce,
  millingToothForceColumn,
  millingTorque,
  millingTorqueColumn,
} from './milling-load.ts';
export * from './minimum-chip.ts';
export * from './motion.ts';
export * from './natural-frequency.ts';
export * from './path-limits.ts';
export * from './power.ts';
export * from './quantities.ts';
export * from './ramps.ts';
export * from './reaming.ts';
export * from './removal.ts';
export * from './result.ts';
export * from './roughness.ts';
export * from './runout.ts';
export * from './slender.ts';
export * from './stability.ts';
export * from './stability-milling.ts';
export * from './stiffness.ts';
export * from './surface-speed.ts';
export * from './tapping.ts';
export * from './thread-geometry.ts';
export * from './thread-milling.ts';
export * from './threading.ts';
export * from './time.ts';
export * from './tool-life.ts';
export * from './trochoid.ts';
export * from './turning.ts';
export { UNFOLDINGS, type UnfoldingInputs, type UnfoldingName, unfold } from './unfold.ts';
export * from './units.ts';
