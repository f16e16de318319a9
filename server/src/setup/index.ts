export { calledText, holdsSize } from './called.ts';
export type { CommentContext, CommentDoubt, CommentFields } from './comment-reading.ts';
export {
  addCalled,
  addStanding,
  addTool,
  applyTextEdits,
  type EditResult,
  setValue,
  type TextEdit,
} from './edits.ts';
export type {
  Coolant,
  KeepOut,
  Quote,
  Silence,
  Workholding,
  Workpiece,
  WorkSetup,
} from './job-keys.ts';
export { keyDoc } from './json-schema.ts';
export { keyAt, type TablePlace } from './key-at.ts';
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
export { addMissingTools, newSheet, type ProgramFacts } from './new-sheet.ts';
export { insideFolder, programEndings, recordEndings } from './paths.ts';
export { type SheetProblem, type SheetProblemCode, sheetProblems } from './problem.ts';
export { readQuantity, type SheetUnits } from './quantity.ts';
export { type Crib, cribSpec, readCrib, readSetupSheet, type SetupSheet, sheetSpec } from './sheet.ts';
export type { Stock, Turn } from './stock-keys.ts';
export { readToolComment } from './tool-comment.ts';
export {
  noToolNumber,
  type ProgramComment,
  type ToolChange,
  type ToolReading,
  toolComments,
} from './tool-comments.ts';
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
