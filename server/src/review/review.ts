import type { Reading } from '../rs274/index.ts';
import { type EngineOptions, runRules } from './engine.ts';
import { byHarm, type Finding, type SilencedFinding } from './finding.ts';
import { joinSameCause } from './join-causes.ts';
import { type Knowledge, makeProgram } from './make-program.ts';
import type { Program } from './program.ts';
import { rules } from './rules/index.ts';
import { applySilences } from './silence.ts';
import { silencesOf } from './silences-of.ts';
import { type ToolReview, toolReviews } from './tool-review.ts';

/** All that is known about one program. Every surface reads this. */
export interface Review {
  readonly program: Program;
  readonly tools: readonly ToolReview[];
  readonly findings: readonly Finding[];
  readonly silenced: readonly SilencedFinding[];
  readonly not_checked: readonly string[];
  /** False when a bound was reached and part of the program was not run. */
  readonly complete: boolean;
}

/** Reviews a program that was read, with what the setup sheet and the crib say. */
export function makeReview(reading: Reading, knowledge: Knowledge, options: EngineOptions = {}): Review {
  const program = makeProgram(reading, knowledge);
  const raw = runRules(rules, program, options);
  const { findings, silenced } = applySilences(raw.findings, silencesOf(program));
  return {
    program,
    tools: toolReviews(program),
    findings: joinSameCause(findings).sort(byHarm),
    silenced,
    not_checked: [...raw.not_checked, ...stockGaps(program), ...readingGaps(reading)],
    complete: reading.complete,
  };
}

/** What the stock calculation left out, and that it was assumed where nobody stated it. */
function stockGaps({ cuts }: Program): string[] {
  if (!cuts) return [];
  const assumed = cuts.assumed
    ? ['the stock is assumed from the program itself: depth, width and loads rest on it']
    : [];
  return [...assumed, ...cuts.left_out];
}

/** What the reader itself could not follow, in words. */
function readingGaps(reading: Reading): string[] {
  const gaps = new Map<string, string>();
  for (const problem of reading.problems()) {
    if (problem.code === 'not-followed' && !gaps.has(problem.message))
      gaps.set(problem.message, `line ${problem.line + 1}: ${problem.message}`);
  }
  return [...gaps.values()];
}
