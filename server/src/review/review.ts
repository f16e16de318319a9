import type { Reading } from '../rs274/index.ts';
import { type EngineOptions, type EngineResult, runRules } from './engine.ts';
import { byHarm, type Finding, type SilencedFinding } from './finding.ts';
import { joinSameCause } from './join-causes.ts';
import type { Knowledge } from './knowledge.ts';
import { makeProgram } from './make-program.ts';
import { CORNER_TOLERANCE_MM } from './motion.ts';
import type { Program } from './program.ts';
import { rules } from './rules/index.ts';
import { applySilences } from './silence.ts';
import { silencesOf } from './silences-of.ts';
import { type ToolReview, toolReviews } from './tool-review.ts';

/**
 * All that is known about one program. Every surface reads this. Tools and findings are worked out when they are first
 * asked for, so a hint need not wait for them; that is to happen before the reading goes on to another version.
 */
export interface Review {
  readonly program: Program;
  readonly tools: readonly ToolReview[];
  readonly findings: readonly Finding[];
  readonly silenced: readonly SilencedFinding[];
  readonly not_checked: readonly string[];
  /** What was taken for granted where the control's parameters decide: the gap of a peck, a dwell's unit. */
  readonly assumed: readonly string[];
  /** False when a bound was reached and part of the program was not run. */
  readonly complete: boolean;
}

/**
 * Reviews a program that was read, with what the setup sheet and the crib say. `beside` gives findings of the files
 * beside it.
 */
export function makeReview(
  reading: Reading,
  knowledge: Knowledge,
  options: EngineOptions = {},
  beside: (program: Program) => readonly Finding[] = () => [],
): Review {
  return new LateReview(makeProgram(reading, knowledge), options, beside);
}

/** A class, so that all reviews have one shape: see `KnownProgram`. */
class LateReview implements Review {
  readonly complete: boolean;
  private tools_made: readonly ToolReview[] | undefined;
  private raw_made: EngineResult | undefined;
  private judged_made: Pick<Review, 'findings' | 'silenced'> | undefined;
  private gaps_made: readonly string[] | undefined;

  constructor(
    readonly program: Program,
    private readonly options: EngineOptions,
    private readonly beside: (program: Program) => readonly Finding[],
  ) {
    this.complete = program.reading.complete;
  }

  get tools(): readonly ToolReview[] {
    this.tools_made ??= toolReviews(this.program);
    return this.tools_made;
  }

  get findings(): readonly Finding[] {
    return this.judged().findings;
  }

  get silenced(): readonly SilencedFinding[] {
    return this.judged().silenced;
  }

  get not_checked(): readonly string[] {
    const { program } = this;
    this.gaps_made ??= [
      ...materialGaps(program),
      ...this.raw().gaps.words(),
      ...stockGaps(program),
      ...readingGaps(program),
    ];
    return this.gaps_made;
  }

  get assumed(): readonly string[] {
    const taken = this.program.reading.assumptions().map(({ message }) => message);
    return [...taken, ...motionAssumed(this.program)];
  }

  private raw(): EngineResult {
    this.raw_made ??= runRules(rules, this.program, this.options);
    return this.raw_made;
  }

  private judged(): Pick<Review, 'findings' | 'silenced'> {
    if (this.judged_made === undefined) {
      const { findings, silenced } = applySilences(this.raw().findings, silencesOf(this.program));
      const all = [...joinSameCause(findings), ...this.beside(this.program)].sort(byHarm);
      this.judged_made = { findings: all, silenced };
    }
    return this.judged_made;
  }
}

/** A material that was named and not found, with the nearest that are known. */
function materialGaps({ materialFound }: Program): string[] {
  if (!materialFound || materialFound.kind === 'found') return [];
  const near = materialFound.nearest.map(material => material.id).join(', ');
  return [`material: ${materialFound.why}${near === '' ? '' : `; nearest known: ${near}`}`];
}

/** What the stock calculation left out, and that it was assumed where nobody stated it. */
function stockGaps({ cuts, uncut_why }: Program): string[] {
  if (!cuts) return uncut_why === undefined ? [] : [uncut_why];
  const assumed = cuts.assumed
    ? [
        `${cuts.assumed_why ?? 'the stock is assumed from the program itself'}: depth, width and loads rest on it`,
      ]
    : [];
  return [...assumed, ...cuts.left_out];
}

/** How corners are counted where the times follow the machine's acceleration. */
function motionAssumed({ machine }: Program): string[] {
  if (machine?.acceleration_m_s2 === undefined) return [];
  return [
    `times follow the machine's acceleration; corners are taken as rounded by ${CORNER_TOLERANCE_MM} mm where the program asks for no exact stop`,
  ];
}

/** What the reader itself could not follow, in words. */
function readingGaps(program: Program): string[] {
  const gaps = new Map<string, string>();
  for (const problem of program.problems()) {
    if (problem.code === 'not-followed' && !gaps.has(problem.message))
      gaps.set(problem.message, `line ${problem.line + 1}: ${problem.message}`);
  }
  return [...gaps.values()];
}
