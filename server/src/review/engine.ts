import { type Finding, SEVERITIES, type Severity } from './finding.ts';
import { Gaps } from './gaps.ts';
import { keptBy } from './kept-by.ts';
import { missingNeed } from './needs.ts';
import { problemFindings } from './problem-findings.ts';
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
  // What another language says cannot be judged by the rules of this one: only the refusal is told.
  const refused = program.reading.settled.not_cutting !== undefined;
  const run = new Run(program, options);
  for (const checked of checkedRules(rules))
    if (!refused || checked.rule.code === 'not-a-program') run.check(checked);
  const { findings, gaps } = run;
  if (refused) return { findings, gaps: new Gaps() };
  for (const finding of problemFindings(rules, program, options)) findings.push(finding);
  return { findings: dropExplained(rules, findings), gaps };
}

/** A rule with its needs apart: those of the program, and those of a tool. */
interface CheckedRule {
  rule: Rule;
  of_program: readonly Need[];
  of_tool: readonly Need[];
}

const checkedRules = keptBy((rules: readonly Rule[]): readonly CheckedRule[] =>
  rules.map(rule => ({
    rule,
    of_program: rule.needs.filter(need => !need.startsWith('tool.')),
    of_tool: rule.needs.filter(need => need.startsWith('tool.')),
  })),
);

/** The rules as they run over one program. What a rule may call is made once: at a key a thousand would be made anew. */
class Run {
  readonly findings: Finding[] = [];
  readonly gaps = new Gaps();
  private readonly cutting: readonly ToolUse[];
  private rule: Rule | undefined;
  private use: ToolUse | undefined;
  private set: Severity | undefined;
  /** Undefined where nothing is set, as mostly. */
  private readonly severities: EngineOptions['severities'];

  constructor(
    private readonly program: Program,
    { severities = {} }: EngineOptions,
  ) {
    this.cutting = program.uses.filter(use => use.cuts);
    this.severities = Object.keys(severities).length > 0 ? severities : undefined;
  }

  check({ rule, of_program, of_tool }: CheckedRule): void {
    const { program, cutting, gaps } = this;
    const set = this.severities?.[rule.code];
    if (set === 'off' || (rule.machine && program.kind && rule.machine !== program.kind)) return;
    const uses = rule.idle ? program.uses : cutting;
    const missing = missingNeed(of_program, program);
    if (missing) {
      if (rule.program || uses.some(use => applies(rule, use, program)))
        gaps.add(undefined, missing, rule.title);
      return;
    }
    this.rule = rule;
    this.set = set;
    this.use = undefined;
    rule.program?.(program, this.report);
    if (!rule.tool) return;
    for (const use of uses) {
      if (!applies(rule, use, program)) continue;
      const lacking = missingNeed(of_tool, program, use);
      this.use = use;
      if (lacking) gaps.add(use, lacking, rule.title);
      else rule.tool(use, program, this.report);
    }
  }

  private readonly report = (report: Report): void => {
    const { rule, use, program, set } = this;
    if (rule)
      this.findings.push(finish(rule, use?.number ?? toolAt(rule, program, report.at.line), report, set));
  };
}

function applies(rule: Rule, use: ToolUse, program: Program): boolean {
  return rule.applies?.(use, program) !== false;
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

/** The rules that explain what others find, by code. */
const explainingRules = keptBy(
  (rules: readonly Rule[]): ReadonlyMap<string, Rule> =>
    new Map(
      rules.filter(rule => rule.explains || rule.explains_everywhere).map(rule => [rule.code, rule] as const),
    ),
);
