import type { Finding, Fix, Place, Severity } from './finding.ts';
import type { Program, RatedProblem } from './program.ts';
import type { ToolUse } from './tool-use.ts';

export const FAMILIES = ['language', 'state', 'numbers', 'geometry', 'cutting', 'shop'] as const;
export type Family = (typeof FAMILIES)[number];

/**
 * What a rule must know before it may speak. Names of tool fields belong to the tool at hand; the others to
 * the program or its setup sheet.
 */
export type Need =
  | 'tool.kind'
  | 'tool.diameter'
  | 'tool.teeth'
  | 'tool.pitch'
  | 'tool.hand'
  | 'tool.stickout'
  | 'tool.flute_length'
  | 'tool.corner_radius'
  | 'tool.edge_radius'
  | 'tool.point_angle'
  | 'tool.substrate'
  | 'tool.holder_body'
  | 'material'
  | 'units'
  | 'machine.max_rpm'
  | 'machine.power'
  | 'machine.torque'
  | 'machine.max_feed'
  | 'machine.travel'
  | 'machine.acceleration'
  | 'machine.block_rate'
  | 'workholding.max_rpm'
  | 'workholding.force'
  | 'stock'
  | 'quote'
  | 'record';

/** What a rule says: the engine adds code, severity and tool, and decides whether it is shown. */
export interface Report {
  at: Place;
  message: string;
  /** Only to lower or raise within the rule (a window that is far outside warns). */
  severity?: Severity;
  /** True when the finding rests on a value that was assumed or read from a comment: the engine lowers it. */
  assumed?: boolean;
  related?: Finding['related'];
  fixes?: Fix[];
  source?: string;
}

/** Program text with the places that must be flagged underlined by `^^^` on the next line, and the setup sheet it needs. */
export interface RuleCase {
  /** Why the case exists. */
  name: string;
  program: string;
  /** Setup sheet as JSON text. */
  sheet?: string;
  options?: { dialect?: string; kind?: 'mill' | 'lathe' };
}

export interface Rule {
  /** Words, stable: makes sense after 'OK'. */
  code: string;
  title: string;
  family: Family;
  severity: Severity;
  /** What it means and what it does to tool, part or time. */
  means: string;
  /** What to do. */
  cure: string;
  /** When it is fine to silence it. */
  fine_when: string;
  source: string;
  needs: readonly Need[];
  /** Codes that follow from this one at the same tool and are dropped when it speaks. */
  explains?: readonly string[];
  /** Codes that follow from this one at any tool. */
  explains_everywhere?: readonly string[];
  /** Problem codes of the reader that this rule carries to the person. */
  problems?: readonly string[];
  /** Severity of such a problem in this program, where it is not the rule's own. */
  rate?(problem: RatedProblem, program: Program): Severity | undefined;
  /** Once for the program. */
  program?(program: Program, report: (r: Report) => void): void;
  /** Only for this kind of machine; on the other it says nothing and leaves no gap. */
  machine?: 'mill' | 'lathe';
  /** False for tools that the rule has nothing to say about: no check and no gap. */
  applies?(use: ToolUse, program: Program): boolean;
  /** Uses that make no cutting move are looked at too. */
  idle?: true;
  /** Once for each use of a tool. */
  tool?(use: ToolUse, program: Program, report: (r: Report) => void): void;
  flagged: readonly RuleCase[];
  silent: readonly RuleCase[];
}
