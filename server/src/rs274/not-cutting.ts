/** Why a text is not a program for a cutting machine in this language, and the 0-based line that shows it. */
export interface NotCutting {
  reason: string;
  line: number;
}

type Sign = 'printer' | 'conversational' | 'structured' | 'drill-table';

const REASONS: Readonly<Record<Sign, string>> = {
  printer: 'this looks like a program for a printer (extruder or heater codes), not for a cutting machine',
  conversational: 'this looks like a plain-text conversational program, which is another language',
  structured: 'this looks like a program with assignments and named cycles of another language',
  'drill-table': 'this looks like a drill table for circuit boards, not a program',
};

/** Lines with a sign that it takes to be sure. */
const ENOUGH: Readonly<Record<Sign, number>> = {
  printer: 2,
  conversational: 2,
  structured: 2,
  'drill-table': 2,
};

/** One line in so many is a sign in a printer's program. */
const LEAST_SHARE_OF_PRINTER = 50;

const PRINTER = /(^|\s)M(82|83|104|106|107|109|140|190|204|205)(?!\d)|^G[01]\s.*\bE-?\d|^;\s*(LAYER|TYPE)\b/i;
const CONVERSATIONAL =
  /\bFMAX\b|\bBEGIN PGM\b|\bEND PGM\b|\bTOOL CALL\b|\bCYCL DEF\b|\bBLK FORM\b|^\d*\s*L\s+[XYZ][+-]/i;
const STRUCTURED =
  /=\s*(AC|IC)\s*\(|\bCYCLE\d+\s*\(|\bDEF\s+(REAL|INT|STRING)\b|\bT\s*=\s*"|\bLIMS\s*=|\bMSG\s*\(\s*"/i;
const DRILL_TABLE = /^T\d+C\d*\.\d+|^(METRIC|INCH),(LZ|TZ)/i;

/** Counts lines that show another language; the first of each kind is kept. */
export class NotCuttingSigns {
  private readonly seen = new Map<Sign, { count: number; line: number }>();

  /** Looks at one line; cheap for lines that hold none of the letters involved. */
  look(bytes: Uint8Array, start: number, end: number, line: number): void {
    if (!worthReading(bytes, start, end)) return;
    const text = String.fromCharCode.apply(
      null,
      bytes.subarray(start, Math.min(end, start + 120)) as unknown as number[],
    );
    const code = text.startsWith('(') ? '' : text.replace(/\([^)]*\)/g, '');
    if (PRINTER.test(code)) this.note('printer', line);
    if (code.startsWith(';')) return;
    if (CONVERSATIONAL.test(code)) this.note('conversational', line);
    if (code !== '' && STRUCTURED.test(text)) this.note('structured', line);
    if (DRILL_TABLE.test(code)) this.note('drill-table', line);
  }

  add(other: NotCuttingSigns, first_line: number): void {
    for (const [sign, { count, line }] of other.seen) {
      const mine = this.seen.get(sign);
      if (mine === undefined) this.seen.set(sign, { count, line: first_line + line });
      else mine.count += count;
    }
  }

  /**
   * What the text is instead, when the signs are enough for its `filled_lines`: codes of printers are builder codes on some
   * mills, so a few of them in a long program are none.
   */
  verdict(filled_lines: number): NotCutting | undefined {
    for (const [sign, { count, line }] of this.seen) {
      if (sign === 'printer' && count * LEAST_SHARE_OF_PRINTER < filled_lines) continue;
      if (count >= ENOUGH[sign]) return { reason: REASONS[sign], line: Number.isNaN(line) ? 0 : line };
    }
    return undefined;
  }

  private note(sign: Sign, line: number): void {
    const mine = this.seen.get(sign);
    if (mine === undefined) this.seen.set(sign, { count: 1, line });
    else mine.count += 1;
  }
}

/** Lines of plain words (G, X, Y, Z, F, N ...) are passed over; E, L, M, T, C, D, = and ; are looked at. */
function worthReading(bytes: Uint8Array, start: number, end: number): boolean {
  for (let p = start; p < end; p += 1) {
    const c = bytes[p];
    if (c === 61 || c === 59) return true;
    const upper = c & 0xdf;
    if (c >= 65 && (upper === 69 || upper === 76 || upper === 77 || upper === 84)) return true;
  }
  return false;
}
