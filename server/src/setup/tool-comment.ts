import { isTurningTool } from '../materials/tool-kind.ts';
import { dropCounts, dropWhatIsNoSize } from './comment-drops.ts';
import { takeLabels } from './comment-labels.ts';
import {
  type CommentContext,
  type CommentFields,
  type CommentReading,
  choice,
  inMm,
  rounded,
  unitsDoubt,
  wholeChoices,
} from './comment-reading.ts';
import { CommentScan, type WrittenSize, worded } from './comment-scan.ts';
import { findInsert, findThreadInsert } from './insert-word.ts';
import { product } from './quantity.ts';
import { findThread } from './threads.ts';
import type { ToolKind } from './tool-keys.ts';
import {
  coatingWords,
  kindWords,
  largestDiameter_mm,
  leftHandWords,
  substrateWords,
  vagueWords,
} from './tool-words.ts';

/**
 * Reads the text between the parentheses of a tool comment. Sizes are in the program's units unless written otherwise,
 * fractions are inches. What can be read two ways is not read but named in `doubts`. Never throws.
 */
export function readToolComment(text: string, context: CommentContext): CommentReading {
  const scan = new CommentScan(text.slice(0, 400));
  const reading: CommentReading = {
    number: undefined,
    fields: {},
    asides: {},
    doubts: [],
    uncertain: undefined,
    marked: false,
  };
  takeNumber(scan, reading, context);
  if (runTogether.test(scan.rest)) {
    reading.doubts.push({ about: 'diameter_mm', why: 'the sizes are run together', choices: [] });
    return reading;
  }
  scan.drop(purpose);
  const vague = scan.take(vagueWords);
  if (vague) reading.uncertain = `the comment says "${vague[0].trim()}"`;
  takeWords(scan, reading, context);
  takeThread(scan, reading);
  if (reading.number === undefined && !reading.marked && !reading.fields.kind && !sizeWords.test(scan.text))
    return reading;
  dropCounts(scan);
  takeLabels(scan, reading, context);
  dropWhatIsNoSize(scan, reading, context);
  takeBareDiameter(scan, reading, context);
  checkRanges(reading);
  return reading;
}

const glued = '(?:MM|IN|FILOS?|FL|FLT|FLUTES?|DIAM?)';
const runTogether = new RegExp(`\\d${glued}\\d+\\.?\\d*${glued}`);
/** A comment with none of these, no tool number and no word for a kind of tool is not looked at further. */
const sizeWords = /DIA|RAD|FLUTE|LENGTH|TEETH|TOOL|[Ø⌀]/;
const purpose = worded('FOR', /(?<![A-Z])FOR(?![A-Z]).*$/);
const prefix = worded(',|:', /^\s*(?:(?:MSG|DEBUG|PRINT)\s*,|TC\s*:|BEGIN OPERATION\s*:)\s*/);
const toolList = worded(
  'TOOL/MILL',
  /TOOL\/MILL\s*,\s*(\d+\.?\d*)\s*,\s*(\d+\.?\d*)\s*,\s*(\d+\.?\d*)\s*,\s*(\d+\.?\d*)\s*$/,
);
export const ownNumber =
  /^\s*(?:N\d{1,5}\s+)?(?:(?:CHANGE TO|LOAD|USE|INSERT|INSTALL) )?(?:TOOL(?: ?(?:NO\.?|NUMBER|NR\.?|#))?|T)\s*[=:#-]?\s*([0O]?\d{1,8})(?![\d./"]|\s*\/|[A-Z]|\s*(?:MM|IN|INCH)(?![A-Z]))\s*[=:|,-]*(?:>\s*)?/;
export const lastNumber = /[;,(\s-]\s*T([0O]?\d{1,8})\s*$/;

function takeNumber(
  scan: CommentScan,
  reading: CommentReading,
  { tools, machine, units }: CommentContext,
): void {
  if (scan.take(prefix)) reading.marked = /TC|OPERATION/.test(scan.text.slice(0, 20));
  const match = scan.take(ownNumber) ?? scan.take(lastNumber);
  if (match) {
    const digits = (match[1] ?? '').replace('O', '0');
    reading.number = toolOf(digits, tools, machine);
    reading.marked = true;
  } else if (/(?<![A-Z])TOOL(?! ?PATH)|COMPENSATED TOOL ?PATH|CHANGE TO|CUTTER/.test(scan.rest))
    reading.marked = true;
  const list = scan.take(toolList);
  if (!list || !units) return;
  const factor = units === 'inch' ? 25.4 : 1;
  reading.fields.diameter_mm = product(Number(list[1]), factor);
  reading.fields.corner_radius_mm = product(Number(list[2]), factor);
}

/** Lathe words carry the offset behind the tool: 0202 and 202 are tool 2, unless the program has a tool of that number. */
function toolOf(
  digits: string,
  tools: ReadonlySet<number> | undefined,
  machine: 'mill' | 'lathe' | undefined,
): number {
  const whole = Number(digits);
  if (tools?.has(whole) || digits.length < 3) return whole;
  const split = Number(digits.slice(0, -2));
  return tools?.has(split) || machine === 'lathe' ? split : whole;
}

function takeWords(scan: CommentScan, { fields }: CommentReading, { machine }: CommentContext): void {
  for (const [pattern, kind] of kindWords) {
    const match = pattern.exec(scan.rest);
    if (!match) continue;
    if (kind === 'boring-bar') {
      if (machine) fields.kind = machine === 'lathe' ? 'bore-bar' : 'bore';
    } else if (!(machine === 'mill' && isTurningTool(kind))) fields.kind = kind;
    if (/RIGHT HAND|RH /.test(match[0])) fields.hand = 'right';
    if (/LEFT HAND|LH /.test(match[0])) fields.hand = 'left';
    break;
  }
  for (const [pattern, substrate] of substrateWords)
    if (pattern.exec(scan.rest)) fields.substrate ??= substrate;
  const coating = coatingWords.exec(scan.rest);
  if (coating) fields.coating = coating[1] === 'UNCOATED' ? 'none' : coating[1];
  if (leftHandWords.exec(scan.rest)) fields.hand ??= 'left';
  const insert = findInsert(scan.rest);
  if (insert) {
    scan.cross(insert.start, insert.end);
    fields.insert = insert.designation;
    if (insert.nose_radius_mm !== undefined) fields.nose_radius_mm = insert.nose_radius_mm;
  }
}

const perInchWord = worded('TPI', /(?<![\d./-])(\d{1,2}(?:\.5)?) ?TPI(?![A-Z])/);

function takeThreadsPerInch(scan: CommentScan, fields: CommentFields): void {
  const perInch = Number(scan.take(perInchWord)?.[1]);
  if (perInch >= 4 && perInch <= 80) fields.pitch_mm ??= product(1 / perInch, 25.4);
}

function takeThread(scan: CommentScan, { fields }: CommentReading): void {
  const insert = findThreadInsert(scan.rest);
  if (insert) {
    scan.cross(insert.start, insert.end);
    fields.pitch_mm = insert.pitch_mm;
    fields.kind ??= 'thread-turn';
  }
  if (fields.kind !== 'tap' && fields.kind !== 'thread-mill' && fields.kind !== 'thread-turn') return;
  const thread = findThread(scan.rest);
  if (!thread) {
    takeThreadsPerInch(scan, fields);
    return;
  }
  scan.cross(thread.start, thread.end);
  fields.pitch_mm ??= thread.pitch_mm;
  if (fields.kind === 'tap') fields.diameter_mm = thread.major_diameter_mm;
}

/** The one size that is left, when it stands by the word for the kind of tool. */
function takeBareDiameter(scan: CommentScan, reading: CommentReading, { units }: CommentContext): void {
  const { fields, doubts } = reading;
  if (fields.diameter_mm !== undefined || doubts.some(({ about }) => about === 'diameter_mm')) return;
  if (!fields.kind && !reading.marked) return;
  const barSize = fields.kind === 'bore-bar';
  if (fields.kind && isTurningTool(fields.kind) && !barSize) return;
  const sizes = scan.sizesLeft();
  const withUnit = sizes.filter(size => size.unit !== undefined || size.form === 'fraction');
  const [size, second] = withUnit.length > 0 ? withUnit : sizes;
  if (!size) return;
  if (second) {
    if (inMm(size, units) !== inMm(second, units))
      doubts.push({ about: 'diameter_mm', why: 'two sizes stand there', choices: [] });
    return;
  }
  const sure = size.unit !== undefined || size.form === 'fraction';
  if (!sure && !fields.kind) return;
  if (!sure && !nearKind(scan, size)) return;
  if (!sure && size.form === 'whole' && (units !== 'mm' || size.value > 63)) {
    doubts.push({
      about: 'diameter_mm',
      why: `"${size.value}" may be ${size.value} mm, ${size.value} in or no size`,
      choices: wholeChoices(size.value),
    });
    return;
  }
  const value = inMm(size, units);
  if (value === undefined) doubts.push(unitsDoubt('diameter_mm', size));
  else if (!sure && units === 'mm' && value < 1 && fields.kind !== 'drill') {
    doubts.push({
      about: 'diameter_mm',
      why: `"${size.value}" is small for mm`,
      choices: [choice(value), choice(product(value, 25.4))],
    });
  } else if (barSize) fields.shank_diameter_mm ??= value;
  else fields.diameter_mm = value;
}

/** A bare number counts only beside the word for the kind: at most three other words between. */
function nearKind(scan: CommentScan, size: WrittenSize): boolean {
  let row: RegExpExecArray | null = null;
  for (const [pattern] of kindWords) row ??= pattern.exec(scan.text);
  if (!row) return false;
  const between =
    size.start < row.index
      ? scan.text.slice(size.end, row.index)
      : scan.text.slice(row.index + row[0].length, size.start);
  return between.split(/\s+/).filter(word => /[A-Z0-9]/.test(word)).length <= 3 && !/[;|]/.test(between);
}

const roundTools: ReadonlySet<ToolKind> = new Set<ToolKind>([
  'drill',
  'spot-drill',
  'center-drill',
  'reamer',
  'tap',
]);

function checkRanges({ fields, doubts, asides }: CommentReading): void {
  if (fields.kind && roundTools.has(fields.kind)) delete fields.corner_radius_mm;
  const drop = (about: 'diameter_mm' | 'corner_radius_mm' | 'nose_radius_mm', why: string): void => {
    doubts.push({ about, why, choices: [] });
    delete fields[about];
  };
  if (
    fields.nose_radius_mm === undefined &&
    fields.corner_radius_mm !== undefined &&
    fields.kind &&
    isTurningTool(fields.kind)
  ) {
    fields.nose_radius_mm = fields.corner_radius_mm;
    delete fields.corner_radius_mm;
  }
  const { diameter_mm: d, corner_radius_mm: r, nose_radius_mm: n, kind } = fields;
  if (n !== undefined && n > 3.3)
    drop('nose_radius_mm', `a nose radius of ${rounded(n)} mm is too large to be meant`);
  if (d !== undefined && (d <= 0.01 || d > ((kind && largestDiameter_mm[kind]) ?? 400)))
    drop('diameter_mm', `a diameter of ${rounded(d)} mm is out of range for this kind of tool`);
  if (r !== undefined && d !== undefined && r > d / 2 + 0.002)
    drop(
      'corner_radius_mm',
      `a corner radius of ${rounded(r)} mm does not fit a diameter of ${rounded(d)} mm`,
    );
  if (asides.length_mm !== undefined && !(asides.length_mm > 0)) delete asides.length_mm;
}
