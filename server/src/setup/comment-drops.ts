import {
  type CommentContext,
  type CommentDoubt,
  type CommentFields,
  type CommentReading,
  choice,
} from './comment-reading.ts';
import { type CommentScan, worded } from './comment-scan.ts';
import { letterDrill_mm, numberDrill_mm } from './drill-sizes.ts';
import type { SheetUnits } from './quantity.ts';

const number = String.raw`(?:\d+\/\d+|\d+\.?\d*|\.\d+)`;
export const counts = [
  worded(
    'DEEP|DP|DEPTH|THRU|HOLE|PLC|PLACES|PASS|PCS|TIMES|XD|MIN|SEC|INSERT|OAL|LG|LONG',
    new RegExp(
      String.raw`(?<![\d./])${number} ?(?:MM|IN|")? ?(?:DEEP|DP|DEPTH|THRU|HOLES?|PLCS?|PLACES|PASS(?:ES)?|PCS|TIMES|XD|MIN|SEC|INSERTS?|OAL|LG|LONG(?=\s*(?:$|[,;|])))(?![A-Z])`,
    ),
  ),
  worded(
    'DEPTH|DP|DEEP|THRU|LEAVE|STOCK|ZMIN',
    new RegExp(String.raw`(?<![A-Z])(?:DEPTH|DP|DEEP|THRU|LEAVE|STOCK|ZMIN)\s*[=:]?\s*${number}`),
  ),
  worded('OFF', /(?<![A-Z])(?:DIA|LEN(?:GTH)?|RAD)\.?\s*OFF(?:SET)?\.?\s*[#=:-]*\s*\d+(?![\d.])/),
  worded('LEN', /(?<![A-Z])LEN\.?\s*-\s*\d+(?![\d.])/),
];
const date = worded('-|/|.|:', /(?<!\d)\d{1,4}([-/.])\d{1,2}\1\d{2,4}(?!\d)|\d{1,2}:\d{2}(?::\d{2})?/);
const dashed = worded('-', /(?<![\d/.])\d+(?:-\d+)+(?![\d/.])(?!\/)/);
const numbered = worded('#', /#\d+/);
const tips = [
  worded('TIP', new RegExp(String.raw`(?<![\d./])${number} ?(?:MM|IN|")? ?TIP(?![A-Z])`)),
  worded('TIP', new RegExp(`(?<![A-Z])TIP ?${number}`)),
];

/** Crosses out counts, depths and offset numbers, so that no label takes them for its own. */
export function dropCounts(scan: CommentScan): void {
  for (const pattern of counts) scan.drop(pattern);
}

/** Crosses out numbers that are no sizes of the tool: dates, catalogue numbers, counts, depths, words of a block. */
export function dropWhatIsNoSize(
  scan: CommentScan,
  { fields, doubts }: CommentReading,
  { units }: CommentContext,
): void {
  if (fields.kind === 'drill' || fields.kind === 'reamer') takeDrillNumber(scan, fields, doubts, units);
  scan.drop(date);
  scan.drop(dashed);
  scan.drop(
    /(?<![A-Z])(?:PRODUCT|PART|CAT(?:ALOG(?:UE)?)?|P\/N|PN|SKU|ITEM|ORDER|EDP|ART|NO|NR|REV|SN|ID|INSERT|GRADE|OP|STEP|REF)(?![A-Z])[.:#\s]*[A-Z0-9-]*\d[A-Z0-9.-]*/,
  );
  const offset = /(?<![A-Z0-9])D ?0?(\d{1,3})(?![\w./"])/.exec(scan.rest);
  if (
    offset &&
    fields.kind &&
    fields.diameter_mm === undefined &&
    !/(?<![A-Z0-9])H ?0?\d{1,3}(?![\w.])/.test(scan.rest)
  ) {
    doubts.push({
      about: 'diameter_mm',
      why: `"${offset[0]}" may be a size or an offset number`,
      choices: [],
    });
  }
  if (fields.kind === 'chamfer-mill' || scan.text.includes('ENGRAV')) dropTip(scan);
  scan.drop(/(?<![A-Z])[A-Z] ?[+-]?\.?\d[\d.]*(?![\w/"])/);
  scan.drop(/(?<![A-Z0-9])[A-Z]+\d[A-Z0-9]*/);
  scan.drop(numbered);
}

/** The flat at the tip of an engraver or a chamfer mill is not its diameter. */
function dropTip(scan: CommentScan): void {
  for (const pattern of tips) scan.drop(pattern);
}

/** Number and letter drills are inch sizes: in a metric program the number may count something else, so it asks. */
function takeDrillNumber(
  scan: CommentScan,
  fields: CommentFields,
  doubts: CommentDoubt[],
  units: SheetUnits | undefined,
): void {
  const byNumber = scan.take(/(?:#|(?<![A-Z])NO\.? ?|(?<![A-Z])NUMBER )(\d{1,2})(?![\d./])/);
  const lettered = byNumber
    ? undefined
    : (scan.take(/(?<![A-Z'])LETTER ([A-Z])(?![A-Z])/) ??
      scan.take(/(?<![A-Z0-9.'"-])([A-Z])(?= DRILL(?![A-Z]))/));
  const size_mm = byNumber ? numberDrill_mm(Number(byNumber[1])) : letterDrill_mm(lettered?.[1] ?? '');
  if (size_mm === undefined) return;
  const name = byNumber ? `number ${byNumber[1]}` : `letter ${lettered?.[1]}`;
  const written_mm = fields.diameter_mm;
  if (written_mm !== undefined && Math.abs(written_mm - size_mm) > 0.03) {
    const why = `a ${name} drill is another size than the one written`;
    doubts.push({ about: 'diameter_mm', why, choices: [choice(size_mm), choice(written_mm)] });
    delete fields.diameter_mm;
  } else if (written_mm === undefined && units === 'mm') {
    doubts.push({
      about: 'diameter_mm',
      why: `a ${name} drill in a metric program`,
      choices: [choice(size_mm)],
    });
  } else fields.diameter_mm ??= size_mm;
}
