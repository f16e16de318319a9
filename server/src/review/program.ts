import type { Material, MaterialFound, MaterialNotFound, Window } from '../materials/index.ts';
import type { Reading, StepCursor } from '../rs274/index.ts';
import type { Problem } from '../rs274/problems.ts';
import type { Known } from '../setup/known.ts';
import type { Machine } from '../setup/machine-keys.ts';
import type { Crib, SetupSheet } from '../setup/sheet.ts';
import type { ToolKnown } from '../setup/tools.ts';
import type { Earlier } from './cuts/earlier.ts';
import type { LatheCuts } from './cuts/lathe-cuts.ts';
import type { MillCuts } from './cuts/mill-cuts.ts';
import type { LineFacts } from './facts.ts';
import type { Place, Severity } from './finding.ts';
import type { Part } from './part.ts';
import type { ToolUse } from './tool-use.ts';
import type { MachineKind } from './working.ts';

/** One word of a block with its place, columns 0-based. */
export interface WordAt {
  letter: string;
  value: number;
  text: string;
  start: number;
  end: number;
}

/** A problem with the severity that its code has in this dialect. */
export interface RatedProblem extends Problem {
  severity?: Severity;
}

/** What the stock calculation knows, once it has run: figures of moves, and what it left out. */
export type Cuts = MillCuts | LatheCuts;

/**
 * Everything known about one program before findings: what rules and surfaces read. Lines are 0-based.
 */
export interface Program {
  readonly reading: Reading;
  readonly kind: MachineKind | undefined;
  readonly dialect: string;
  /** True when the unit of length is stated, given, or fits only one reading. */
  readonly unitsKnown: boolean;
  /** How numbers are shown. */
  readonly shown: 'inch' | 'mm';
  readonly sheet: SetupSheet | undefined;
  readonly crib: Crib | undefined;
  readonly machine: Machine | undefined;
  readonly material: Material | undefined;
  /** How the material's name was found, or why not; undefined when no name is given. */
  readonly materialFound: MaterialFound | MaterialNotFound | undefined;
  readonly materialName: Known<string> | undefined;
  readonly parts: readonly Part[];
  readonly uses: readonly ToolUse[];
  readonly lineCount: number;
  readonly cuts: Cuts | undefined;
  /** Why the stock could not be worked out, in words. */
  readonly uncut_why?: string;
  /** Other programs that the stock starts from. */
  readonly earlier?: Earlier;
  readonly record: readonly unknown[] | undefined;
  tool(number: number): ToolKnown | undefined;
  window(number: number): Window | undefined;
  problems(): Iterable<RatedProblem>;
  /** Words of a block, as written. */
  words(line: number): readonly WordAt[];
  /** Place of the first word with a letter, `G` and `M` with their number; the whole block when there is none. */
  wordPlace(line: number, letter: string, value?: number): Place;
  /** The block's text without blanks around it. */
  blockPlace(line: number): Place;
  /** The nearest line at or above that has a word with this letter; -1 when none is within reach. */
  lineOfWord(letter: string, from: number): number;
  /** Seconds of a rapid at the machine's rapid traverse; NaN when that is not known. */
  rapidSeconds(step: StepCursor): number;
  /** Seconds for a length at rapid, taken at the slowest axis; NaN when not known. */
  rapidSecondsOf(length_mm: number): number;
  /** Adds what the stock knows of a cutting step to a line's facts. */
  cutFacts?(step: StepCursor, tool: ToolKnown | undefined, facts: LineFacts): void;
}
