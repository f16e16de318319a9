export { calledText, holdsSize } from './called.ts';
export type { CommentContext, CommentDoubt, CommentFields } from './comment-reading.ts';
export type {
  Coolant,
  Hardness,
  KeepOut,
  Quote,
  Silence,
  Workholding,
  Workpiece,
  WorkSetup,
} from './job-keys.ts';
export { compareOrigins, isConfirmed, type Known, known, type Origin, type OriginFrom } from './known.ts';
export {
  type CribMachine,
  type Dialect,
  dialects,
  type Machine,
  type OffsetRule,
  type SpeedCurve,
} from './machine-keys.ts';
export { curveAt, type MachineKnown, machineOf } from './machine-known.ts';
export { insideFolder, programEndings, recordEndings } from './paths.ts';
export { type SheetProblem, type SheetProblemCode, sheetProblems } from './problem.ts';
export { readQuantity, type SheetUnits } from './quantity.ts';
export { type Crib, readCrib, readSetupSheet, type SetupSheet } from './sheet.ts';
export type { Stock, Turn } from './stock-keys.ts';
export { readToolComment } from './tool-comment.ts';
export { type ProgramComment, type ToolChange, type ToolReading, toolComments } from './tool-comments.ts';
export {
  type Substrate,
  type ToolEntry,
  type ToolKind,
  type ToolProperties,
  type ToolProperty,
  toolKinds,
  type Wear,
} from './tool-keys.ts';
export type { Contradiction } from './tool-layers.ts';
export {
  missingOf,
  type ToolKnown,
  type ToolQuestion,
  type ToolSources,
  toolsOf,
} from './tools.ts';
