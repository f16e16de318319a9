import { FlowProgram } from '../rs274/flow/program.ts';
import type { Reading } from '../rs274/index.ts';
import { comments, toolChanges } from '../rs274/index.ts';

/** A part of a program with a name: lines `first` to `last`, both included. */
export interface Section {
  kind: 'program' | 'subroutine' | 'tool' | 'loop' | 'header';
  name: string;
  detail: string;
  first: number;
  last: number;
}

const MOST_SECTIONS = 5000;
const MOST_COMMENTS = 50_000;

/** Sections of a program in order of their first line: O programs (when there are several), subroutines, tools, loops. */
export function sectionsOf(reading: Reading): Section[] {
  const { text } = reading;
  const program = reading.needs_flow ? new FlowProgram(text, '') : undefined;
  const sections = [
    ...(program === undefined ? [] : flowSections(program)),
    ...toolSections(reading, program),
  ];
  return sections.sort((a, b) => a.first - b.first || b.last - a.last).slice(0, MOST_SECTIONS);
}

function flowSections(program: FlowProgram): Section[] {
  const sections: Section[] = [];
  if (program.parts.length > 1) {
    for (const { number, first, last } of program.parts) {
      const name = Number.isNaN(number) ? 'before the first O' : `O${number}`;
      sections.push({ kind: 'program', name, detail: remark(program.text.lineText(first)), first, last });
    }
  }
  for (const { kind, label, line, partner } of program.statements.values()) {
    if (partner < 0) continue;
    if (kind === 'sub')
      sections.push({
        kind: 'subroutine',
        name: `o<${label}>`.replace(/^o<(\d+)>$/, 'o$1'),
        detail: remark(program.text.lineText(line)),
        first: line,
        last: partner,
      });
    else if (
      kind === 'while' ||
      kind === 'do' ||
      kind === 'o-while' ||
      kind === 'o-do' ||
      kind === 'repeat' ||
      kind === 'o-if'
    ) {
      sections.push({
        kind: 'loop',
        name: program.text.lineText(line).trim(),
        detail: '',
        first: line,
        last: partner,
      });
    }
  }
  return sections;
}

/** From one tool change to the line before the next, inside the O program that it stands in. */
function toolSections(reading: Reading, program: FlowProgram | undefined): Section[] {
  const changes = toolChanges(reading)
    .filter(({ line }) => line < reading.text.lineCount)
    .sort((a, b) => a.line - b.line)
    .filter(({ line }, at, all) => at === 0 || all[at - 1].line !== line);
  const remarks = remarksNear(reading, new Set(changes.map(({ line }) => line)));
  return changes.map(({ line, tool }, at) => {
    const next = at + 1 < changes.length ? changes[at + 1].line - 1 : reading.text.lineCount - 1;
    const end = program?.partOf(line).last ?? next;
    const name = Number.isNaN(tool) ? 'tool not stated' : `T${tool}`;
    return {
      kind: 'tool',
      name,
      detail: remarks.get(line) ?? '',
      first: line,
      last: Math.max(line, Math.min(next, end)),
    };
  });
}

/** The comment of a tool change: on its line, on the line above, or on the line below. */
function remarksNear(reading: Reading, lines: ReadonlySet<number>): Map<number, string> {
  const found = new Map<number, string>();
  for (const { line, text } of comments(reading.text, MOST_COMMENTS)) {
    for (const near of [line, line + 1, line - 1]) {
      if (lines.has(near) && (near === line || !found.has(near))) found.set(near, bare(text));
    }
  }
  return found;
}

const bare = (comment: string): string => comment.replace(/^[(;\s/]+|[)\s]+$/g, '');
const remark = (line: string): string => bare(/\(.*|;.*/.exec(line)?.[0] ?? '');
