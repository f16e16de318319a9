import type { Problem } from '../rs274/problems.ts';
import { Slot } from '../rs274/slot.ts';
import { type Finding, SEVERITIES, type Severity } from './finding.ts';
import { Gaps } from './gaps.ts';
import { missingNeed } from './needs.ts';
import type { Program } from './program.ts';
import type { Need, Report, Rule } from './rule.ts';
import type { ToolUse } from './tool-use.ts';

export interface EngineOptions {
  /** Severity of a code as the person or the shop set it; 'off' leaves it out. */
  severities?: Readonly<Record<string, Severity | 'off'>>;
}

export interface EngineResult {
  findings: Finding[];
  /** What was not checked and why. */
  gaps: Gaps;
}

/**
 * Runs the rules over a program. The engine, not the rule, decides: a rule whose needs are not met goes to
 * the gaps; what rests on assumed values is at most information; what another finding explains is
 * dropped.
 */
export function runRules(
  rules: readonly Rule[],
  program: Program,
  options: EngineOptions = {},
): EngineResult {
  const findings: Finding[] = [];
  const gaps = new Gaps();
  // What another language says cannot be judged by the rules of this one: only the refusal is told.
  const refused = program.reading.settled.not_cutting !== undefined;
  const cutting = program.uses.filter(use => use.cuts);
  for (const rule of refused ? rules.filter(({ code }) => code === 'not-a-program') : rules) {
    const set = options.severities?.[rule.code];
    if (set === 'off') continue;
    const add = (use: ToolUse | undefined) => (report: Report) =>
      findings.push(finish(rule, use?.number ?? toolAt(rule, program, report.at.line), report, set));
    if (rule.machine && program.kind && rule.machine !== program.kind) continue;
    const uses = usesOf(rule, program, cutting);
    if (!rule.program && uses.length === 0) continue;
    const missing = missingNeed(programNeeds(rule), program);
    if (missing) {
      gaps.add(undefined, missing, rule.title);
      continue;
    }
    if (rule.program) rule.program(program, add(undefined));
    if (rule.tool) {
      for (const use of uses) {
        const lacking = missingNeed(rule.needs, program, use);
        if (lacking) gaps.add(use, lacking, rule.title);
        else rule.tool(use, program, add(use));
      }
    }
  }
  if (refused) return { findings, gaps: new Gaps() };
  for (const finding of problemFindings(rules, program, options)) findings.push(finding);
  const kept = dropExplained(rules, findings);
  return { findings: kept, gaps };
}

/** The uses of tools that a rule looks at. */
function usesOf(rule: Rule, program: Program, cutting: readonly ToolUse[]): readonly ToolUse[] {
  const uses = rule.idle ? program.uses : cutting;
  return rule.applies ? uses.filter(use => rule.applies?.(use, program) !== false) : uses;
}

const program_needs = new WeakMap<Rule, readonly Need[]>();

/** What a rule needs besides a tool's figures. */
function programNeeds(rule: Rule): readonly Need[] {
  let found = program_needs.get(rule);
  if (!found) {
    found = rule.needs.filter(need => !need.startsWith('tool.'));
    program_needs.set(rule, found);
  }
  return found;
}

/** Tool in use at a line of a program that runs in the order of its lines; -1 when it is none, or cannot be told. */
function toolAt(rule: Rule, program: Program, line: number): number {
  if (rule.family === 'language' || program.reading.needs_flow) return -1;
  return program.uses.find(use => line >= use.change_line && line <= use.last_line)?.number ?? -1;
}

function finish(rule: Rule, tool: number, report: Report, set: Severity | undefined): Finding {
  let severity = set ?? report.severity ?? rule.severity;
  if (report.assumed && (severity === 'error' || severity === 'warning')) severity = 'information';
  const { line, column, end_line, end_column } = report.at;
  return {
    code: rule.code,
    severity,
    line,
    column,
    end_line,
    end_column,
    message: report.message,
    ...(tool >= 0 ? { tool } : {}),
    source: report.source ?? rule.source,
    ...(report.related?.length ? { related: report.related } : {}),
    ...(report.fixes?.length ? { fixes: report.fixes } : {}),
  };
}

/** What was made of a problem last: at a key all but a few are those of the review before. */
const made = new Slot<Problem, Finding>();

/** Problems of the reader, carried by the rule that names their code. */
function problemFindings(rules: readonly Rule[], program: Program, options: EngineOptions): Finding[] {
  const byProblem = problemRules(rules);
  const findings: Finding[] = [];
  for (const problem of program.problems()) {
    const rule = byProblem.get(problem.code);
    const code = rule?.code ?? problem.code;
    const set = options.severities?.[code];
    if (set === 'off') continue;
    const rated = rule?.rate?.(problem, program);
    const severity = set ?? problem.severity ?? rated ?? rule?.severity ?? 'warning';
    const kept = made.get(problem);
    if (kept?.severity === severity && kept.code === code) {
      findings.push(kept);
      continue;
    }
    const fixes = problem.fix
      ? [
          {
            title: problem.fix.title,
            grade: 'safe' as const,
            edits: [
              {
                line: problem.line,
                column: problem.fix.start,
                end_line: problem.line,
                end_column: problem.fix.end,
                text: problem.fix.text,
              },
            ],
          },
        ]
      : undefined;
    const finding: Finding = {
      code,
      severity,
      line: problem.line,
      column: problem.start,
      end_line: problem.line,
      end_column: problem.end,
      message: asSentence(problem.message),
      ...(rule ? { source: rule.source } : {}),
      ...(fixes ? { fixes } : {}),
      ...(problem.file ? { file: problem.file } : {}),
    };
    made.set(problem, finding);
    findings.push(finding);
  }
  return findings;
}

const by_problem = new WeakMap<readonly Rule[], ReadonlyMap<string, Rule>>();

/** The rules by the codes of the problems that they carry. */
function problemRules(rules: readonly Rule[]): ReadonlyMap<string, Rule> {
  let found = by_problem.get(rules);
  if (!found) {
    found = new Map(rules.flatMap(rule => (rule.problems ?? []).map(code => [code, rule] as const)));
    by_problem.set(rules, found);
  }
  return found;
}

/** First letter large, a full stop at the end. */
export function asSentence(text: string): string {
  const begun = text.slice(0, 1).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(begun) ? begun : `${begun}.`;
}

/** Leaves out what a finding of the same tool explains that is at least as bad: the cause is told, not what follows from it. */
function dropExplained(rules: readonly Rule[], findings: Finding[]): Finding[] {
  const explained = new Map<string, number>();
  const explaining = explainingRules(rules);
  const everywhere = new Set<string>();
  for (const finding of findings) {
    const rule = explaining.get(finding.code);
    if (!rule) continue;
    const rank = SEVERITIES.indexOf(finding.severity);
    for (const code of rule.explains ?? []) {
      const key = `${code} ${finding.tool ?? ''}`;
      explained.set(key, Math.min(rank, explained.get(key) ?? rank));
    }
    for (const code of rule.explains_everywhere ?? []) everywhere.add(code);
  }
  if (explained.size === 0 && everywhere.size === 0) return findings;
  return findings.filter(
    ({ code, tool, severity }) =>
      !everywhere.has(code) &&
      !(SEVERITIES.indexOf(severity) >= (explained.get(`${code} ${tool ?? ''}`) ?? Infinity)),
  );
}

const explaining_rules = new WeakMap<readonly Rule[], ReadonlyMap<string, Rule>>();

/** The rules that explain what others find, by code. */
function explainingRules(rules: readonly Rule[]): ReadonlyMap<string, Rule> {
  let found = explaining_rules.get(rules);
  if (!found) {
    const those = rules.filter(rule => rule.explains || rule.explains_everywhere);
    found = new Map(those.map(rule => [rule.code, rule] as const));
    explaining_rules.set(rules, found);
  }
  return found;
}
