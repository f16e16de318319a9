import { findNodeAtLocation } from 'jsonc-parser';
import { appendProperty } from './append-property.ts';
import { applyTextEdits, type EditResult, setValue, textDifference } from './edits.ts';
import type { Known } from './known.ts';
import type { Dialect } from './machine-keys.ts';
import type { SheetProblem } from './problem.ts';
import type { SheetUnits } from './quantity.ts';
import { parseBounded } from './sheet-text.ts';
import type { ToolReading } from './tool-comments.ts';

/** What a program itself says about its setup. Missing facts are left out of the sheet. */
export type ProgramFacts = {
  /** File name of the program. */
  program: string;
  units?: Known<SheetUnits> | undefined;
  kind?: Known<'mill' | 'lathe'> | undefined;
  dialect?: Known<Dialect> | undefined;
  /** Numbers of the tools in the order of use, with what their comments say. */
  tools: readonly { number: number; reading?: ToolReading | undefined }[];
};

/**
 * The text of a new setup sheet, filled with what the program says; each such value carries a comment that names where it
 * was read. What is not known is left out, teeth are asked for in a comment.
 */
export function newSheet(facts: ProgramFacts): string {
  const lines = [
    `// Setup sheet of ${plain(facts.program)}. Everything is optional.`,
    '// Values with "read" behind them were read from the program: check them.',
    '{',
  ];
  if (facts.units)
    lines.push(`  "units": "${facts.units.value}", // read: ${plain(facts.units.origin.where)}`);
  const machine = [
    ...(facts.kind ? [`    "kind": "${facts.kind.value}", // read: ${plain(facts.kind.origin.where)}`] : []),
    ...(facts.dialect
      ? [`    "dialect": "${facts.dialect.value}", // read: ${plain(facts.dialect.origin.where)}`]
      : []),
  ];
  if (machine.length > 0) lines.push('  "machine": {', ...machine, '  },');
  lines.push(
    '  // "workpiece": { "material": "" },',
    '  // "workholding": { "grip": "firm" },',
    '  "tools": {',
  );
  for (const { number, reading } of facts.tools) {
    if (number >= 0) lines.push(`    "${number}": ${toolText(reading, facts.units?.value, '    ')},`);
  }
  return `${[...lines, '  },', '}'].join('\n')}\n`;
}

/** Adds the tools that a sheet does not have yet, filled and marked like those of a new one; nothing that is there changes. */
export function addMissingTools(text: string, facts: ProgramFacts): EditResult {
  const problems: SheetProblem[] = [];
  const before = parseBounded(text, problems);
  if (problems[0]) return { why: `the sheet is not JSON: ${problems[0].message}` };
  const units = before && findNodeAtLocation(before, ['units'])?.value;
  const sheetUnits = units === 'inch' || units === 'mm' ? units : undefined;
  let now = text;
  for (const { number, reading } of facts.tools) {
    const path = ['tools', String(number)];
    if (number < 0 || (before && findNodeAtLocation(before, path))) continue;
    const tools = parseBounded(now, []);
    const object = tools && findNodeAtLocation(tools, ['tools']);
    const appended =
      object && appendProperty(now, object, String(number), indent => toolText(reading, sheetUnits, indent));
    if (appended !== undefined) {
      now = appended;
      continue;
    }
    const added = setValue(now, path, {});
    if ('why' in added) return added;
    now = applyTextEdits(now, added.edits);
    const tree = parseBounded(now, []);
    const node = tree && findNodeAtLocation(tree, path);
    if (!node) return { why: `tool ${number} could not be added` };
    const indent = /(?:^|[\r\n])([ \t]*)$/.exec(now.slice(0, node.parent?.offset ?? node.offset))?.[1] ?? '';
    now =
      now.slice(0, node.offset) +
      toolText(reading, sheetUnits, indent) +
      now.slice(node.offset + node.length);
  }
  return textDifference(text, now);
}

const keys = [
  ['kind', 'kind', 'word'],
  ['diameter_mm', 'diameter', 'length'],
  ['teeth', 'teeth', 'number'],
  ['corner_radius_mm', 'corner_radius', 'length'],
  ['nose_radius_mm', 'nose_radius', 'length'],
  ['tip_direction', 'tip_direction', 'number'],
  ['flute_length_mm', 'flute_length', 'length'],
  ['stickout_mm', 'stickout', 'length'],
  ['shank_diameter_mm', 'shank_diameter', 'length'],
  ['width_mm', 'width', 'length'],
  ['point_angle_deg', 'point_angle_deg', 'number'],
  ['pitch_mm', 'pitch', 'length'],
  ['hand', 'hand', 'word'],
  ['substrate', 'substrate', 'word'],
  ['coating', 'coating', 'word'],
  ['insert', 'insert', 'word'],
] as const satisfies readonly (readonly [
  keyof ToolReading['fields'],
  string,
  'word' | 'length' | 'number',
])[];

function toolText(reading: ToolReading | undefined, units: SheetUnits | undefined, indent: string): string {
  const lines: string[] = [];
  for (const [name, key, form] of keys) {
    const read = reading?.fields[name];
    if (!read) continue;
    const value = form === 'length' ? lengthText(Number(read.value), units) : JSON.stringify(read.value);
    lines.push(`"${key}": ${value}, // read on line ${read.line}: ${plain(read.text)}`);
  }
  for (const { why, line } of reading?.doubts ?? []) lines.push(`// line ${line}: ${plain(why)}`);
  if (!reading?.fields.teeth && needsTeeth(reading)) lines.push('// "teeth": not said by the program');
  if (lines.length === 0) return '{}';
  return `{\n${lines.map(line => `${indent}  ${line}\n`).join('')}${indent}}`;
}

function needsTeeth(reading: ToolReading | undefined): boolean {
  const kind = reading?.fields.kind?.value;
  return kind === undefined || kind.endsWith('-mill') || kind === 'drill' || kind === 'reamer';
}

function lengthText(length_mm: number, units: SheetUnits | undefined): string {
  const value = units === 'inch' ? length_mm / 25.4 : length_mm;
  const number = Number(value.toPrecision(7));
  return units === undefined ? `"${number} mm"` : String(number);
}

/** Program text that may stand in a comment of a sheet: one line, no control characters. */
function plain(text: string): string {
  return text
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ')
    .trim()
    .slice(0, 120);
}
