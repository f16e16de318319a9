/**
 * Cutting mathematics for milling, turning, drilling, tapping and threading. Pure functions, no dependency; millimetres,
 * minutes, newtons, kilowatts and degrees at the interface. A function gives a number (or an estimate with its range), or
 * says in words why it cannot.
 */

export * from './axial-thinning.ts';
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
export * from './effective-diameter.ts';
export * from './engagement.ts';
export * from './feeds.ts';
export {
  formatQuantity,
  formatTime,
  type Shown,
  type ShownUnits,
  shownUnit,
  showQuantity,
} from './format.ts';
export type { FormatKind } from './format-kinds.ts';
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
export * from './power.ts';
export * from './quantities.ts';
export * from './removal.ts';
export * from './result.ts';
export * from './roughness.ts';
export * from './surface-speed.ts';
export * from './time.ts';
export { UNFOLDINGS, type UnfoldingInputs, type UnfoldingName, unfold } from './unfold.ts';
export * from './units.ts';
