/** The language: text, blocks, state, moves. Everything other rooms may use. */
export { L as LETTER } from './block.ts';
export { Chunk } from './chunk.ts';
export { LETTERS } from './codes/letters.ts';
export * from './codes/shape.ts';
export { CODES, codeFor, codeName, dialectsOf, meaningsOf } from './codes/table.ts';
export { type Comment, comments, commentsOfChunk, type PlacedComment } from './comments.ts';
export { StepCursor } from './cursor.ts';
export {
  type BlockView,
  blockAt,
  blockIn,
  toolChanges,
  type Word,
} from './inspect.ts';
export type { Assumption, MachineSettings } from './machine.ts';
export type { NotCutting } from './not-cutting.ts';
export { PROBLEM_CODES, type ProblemCode, problemCode, problemSeverity } from './problem-codes.ts';
export type { ProblemSeverity } from './problem-row.ts';
export type { Problem } from './problems.ts';
export { type ReadOptions, readProgram } from './read.ts';
export { Reading } from './reading.ts';
export { type Settled, settle } from './settle.ts';
export type { Hints, How, Item } from './settled-item.ts';
export { MachineState, S, STATE_FIELDS, type StateField } from './state.ts';
export {
  ARC_WIDTH,
  KIND,
  ROTARY_WIDTH,
  RUN,
  RUN_FIELDS,
  RUN_WIDTH,
  type RunField,
  STEP_FLAG,
  STEP_KINDS,
  type StepKind,
  type StepTable,
} from './steps.ts';
export type { Stretch, StretchWitness } from './stretch.ts';
export { type LinePlace, type Position, ProgramText } from './text.ts';
