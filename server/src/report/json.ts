import { firstContactOf } from '../proveout/of-tool.ts';
import { type CutFigures, cutFigures } from '../review/cuts/cut-figures.ts';
import { missingOfCut } from '../review/cuts/missing-of-cut.ts';
import { extentsOf } from '../review/extents.ts';
import { type LineFacts, lineFacts, type Span } from '../review/facts.ts';
import type { Finding, SilencedFinding } from '../review/finding.ts';
import { motionTimes } from '../review/motion.ts';
import { operationsOf } from '../review/operations.ts';
import type { Review } from '../review/review.ts';
import { programTimes } from '../review/times.ts';
import { rangeOf, type ToolReview } from '../review/tool-review.ts';
import { effectiveTeeth } from '../review/working.ts';
import { KIND, STEP_KINDS } from '../rs274/steps.ts';
import type { OriginFrom } from '../setup/known.ts';

export const SCHEMA = 1;

/** File facts that only the edge knows. */
export interface FileFacts {
  path: string;
  sha256: string;
  bytes: number;
  version: string;
}

/** JSON text that drops what is undefined and what is not finite. */
type Json = Record<string, unknown>;

/** The review as JSON: the shape that scripts rely on. */
export function reviewJson(review: Review, file: FileFacts): Json {
  const { program } = review;
  const times = programTimes(review);
  const box = extentsOf(program);
  return {
    tapeproof: file.version,
    schema: SCHEMA,
    program: {
      path: file.path,
      sha256: file.sha256,
      bytes: file.bytes,
      lines: program.lineCount,
      dialect: program.dialect,
      kind: program.kind,
      units: unitsOf(review),
      complete: review.complete,
      extents_mm: box,
      ...times,
    },
    tools: review.tools.filter(tool => tool.number >= 0).map(tool => toolJson(review, tool)),
    operations: operationsOf(review.program),
    findings: review.findings.map(findingJson),
    silenced: review.silenced.map(silencedJson),
    not_checked: review.not_checked,
    assumed: review.assumed,
  };
}

function unitsOf(review: Review): 'inch' | 'mm' | undefined {
  const { units } = review.program.reading.settled;
  return units.how === 'unknown' ? undefined : units.value;
}

function toolJson(review: Review, tool: ToolReview): Json {
  const chip = rangeOf(tool.window, 'chip_load_mm');
  const speed = rangeOf(tool.window, 'surface_speed_m_min');
  const feed = rangeOf(tool.window, 'feed_per_rev_mm');
  const contact = firstContactOf(review, tool);
  return {
    number: tool.number,
    kind: tool.tool?.kind?.value,
    diameter_mm: tool.tool?.diameter_mm?.value,
    teeth: effectiveTeeth(tool.tool),
    from: tool.from && sourceWord(tool.from),
    first_line: tool.first_line + 1,
    last_line: tool.last_line + 1,
    time_s: tool.time_s,
    cut_time_s: tool.cut_time_s,
    cut_length_mm: tool.cut_length_mm,
    first_contact_percent: contact.percent,
    first_contact_why_not: contact.percent === undefined ? contact.why_not : undefined,
    chip_load_mm: tool.chip_load_mm,
    feed_per_rev_mm: tool.feed_per_rev_mm,
    surface_speed_m_min: tool.surface_speed_m_min,
    window:
      tool.window && (chip || speed || feed)
        ? {
            chip_load_mm: chip,
            feed_per_rev_mm: feed,
            surface_speed_m_min: speed,
            source: tool.window.source,
          }
        : undefined,
  };
}

function sourceWord(from: OriginFrom): string {
  return from === 'standing' ? 'crib' : from;
}

/** A finding in the contract's shape: lines and columns from 1. */
export function findingJson(finding: Finding): Json {
  return {
    code: finding.code,
    severity: finding.severity,
    line: finding.line + 1,
    column: finding.column + 1,
    end_line: finding.end_line + 1,
    end_column: finding.end_column + 1,
    message: finding.message,
    tool: finding.tool,
    source: finding.source,
    file: finding.file,
    related: finding.related?.map(place => ({ line: place.line + 1, message: place.message })),
    fixes: finding.fixes?.map(fix => ({
      title: fix.title,
      grade: fix.grade,
      file: fix.file,
      edits: fix.edits.map(edit => ({
        line: edit.line + 1,
        column: edit.column + 1,
        end_line: edit.end_line + 1,
        end_column: edit.end_column + 1,
        text: edit.text,
      })),
    })),
  };
}

export function silencedJson(finding: SilencedFinding): Json {
  return { ...findingJson(finding), reason: finding.reason };
}

/** Facts of one line in the contract's shape; undefined for a line that neither moves nor changes state. */
export function factsJson(review: Review, line: number): Json | undefined {
  const facts = lineFacts(review.program, line);
  if (!facts) return undefined;
  const missing = [...facts.missing, ...missingOfCut(review.program, facts)];
  return {
    ...lineJson(facts),
    ...cutJson(cutFigures(review.program, line), facts.runs > 1),
    ...followedTime(review, facts),
    ...(missing.length > 0 && { missing }),
  };
}

/** Time that the machine can follow, with the ideal one beside it, where its acceleration is known. */
function followedTime({ program }: Review, facts: LineFacts): Json {
  const motion = facts.runs === 1 && facts.values.time_s ? motionTimes(program) : undefined;
  if (!motion || !facts.values.time_s) return {};
  let time_s = 0;
  const cursor = program.reading.stepsOfLine(facts.line);
  while (cursor.next()) {
    const seconds = cursor.kind === KIND.dwell ? cursor.seconds : motion.seconds(cursor);
    if (Number.isFinite(seconds)) time_s += seconds;
  }
  return time_s > 0 ? { time_s, programmed_time_s: facts.values.time_s[1] } : {};
}

function lineJson(facts: LineFacts): Json {
  const many = facts.runs > 1;
  const row: Json = { line: facts.line + 1 };
  if (facts.tools.length === 1) row.tool = facts.tools[0];
  else if (facts.tools.length > 1) row.tool = facts.tools;
  row.kinds = facts.kinds.map(kind => STEP_KINDS[kind]);
  if (many) row.runs = facts.runs;
  for (const [name, span] of Object.entries(facts.values)) row[name] = many ? span : single(span);
  if (facts.assumed) row.assumed = ['stock'];
  return row;
}

function cutJson(cut: CutFigures | undefined, many: boolean): Json {
  return Object.fromEntries(
    Object.entries(cut ?? {}).map(([name, value]) => [
      name,
      Array.isArray(value) && !many ? single(value as Span) : value,
    ]),
  );
}

function single([least, most]: Span): number | Span {
  return Math.abs(most - least) <= 1e-9 * Math.max(1, Math.abs(most)) ? most : [least, most];
}

/** True for steps that only mark a place. */
export function isMark(kind: number): boolean {
  return kind === KIND.place;
}
