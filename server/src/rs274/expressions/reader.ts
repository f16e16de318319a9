import type { Dialect } from '../codes/shape.ts';
import * as B from './bytes.ts';
import { apply, arcTangent, functionFault } from './functions.ts';
import { isComparison, isLogic, OPERATOR, operate, operationFault, strengths } from './operators.ts';
import type { Parameters } from './parameters.ts';
import { ExpressionScanner } from './scanner.ts';
import { STATUS, Value } from './value.ts';

const DEPTH_LIMIT = 64;
const FAULTS: Readonly<Record<string, string>> = {
  'division-by-zero': 'Division by zero.',
  'power-of-negative': 'A negative number has no power to a fraction.',
  'root-of-negative': 'A negative number has no square root.',
  'logarithm-of-zero': 'LN needs a number above 0.',
  'arc-function-range': 'ASIN and ACOS need a number from -1 to 1.',
};

/** Reads values and expressions out of bytes. One is enough for a run; results land in `Value` objects of the caller. */
export class ExpressionReader extends ExpressionScanner {
  private depth = 0;
  /** A comparison, or AND OR XOR, was read between the same two brackets. */
  private compared = false;
  private joined = false;
  private readonly strength: readonly number[];
  private readonly pool: Value[] = [];

  constructor(
    readonly dialect: Dialect,
    readonly parameters: Parameters,
  ) {
    super(dialect === 'ngc');
    this.strength = strengths(dialect);
  }

  /**
   * Reads one value at `at`: a number, `[expression]`, a parameter or a function, with signs before it, as it stands
   * after a word's letter. Never throws; `out.next` is the offset after it, `out.status` what is known.
   */
  value(source: Uint8Array, at: number, end: number, out: Value): void {
    this.begin(source, at, end, out);
    this.signed(out);
    out.next = this.at;
  }

  /** Reads an expression without brackets around it, as word-address macros have it after `=`. */
  expression(source: Uint8Array, at: number, end: number, out: Value): void {
    this.begin(source, at, end, out);
    this.whole(out);
    out.next = this.at;
  }

  /**
   * Reads a setting `#n=value` at its `#` and notes it with the parameters; it counts from their `commit` on.
   * In `ngc` one value follows the `=`, elsewhere an expression. `out` holds the value set.
   */
  setting(source: Uint8Array, at: number, end: number, out: Value): void {
    this.begin(source, at, end, out);
    this.at += 1;
    const key = this.reference(out);
    if (key === undefined) {
      if (out.status === STATUS.unknown && this.peek() === B.EQUALS) this.skipValue();
    } else {
      if (this.peek() !== B.EQUALS) {
        out.wrong('setting-without-equals', at, this.at, '= is missing after the parameter.');
      } else {
        this.at += 1;
        if (this.ngc) this.signed(out);
        else this.whole(out);
        if (out.status !== STATUS.wrong)
          this.parameters.assign(key, out.status === STATUS.vacant ? undefined : out.number);
      }
    }
    out.next = this.at;
  }

  /** Passes over the value of a setting whose parameter is not known. */
  private skipValue(): void {
    this.at += 1;
    const value = new Value();
    value.reset(this.at);
    this.whole(value);
  }

  private begin(source: Uint8Array, at: number, end: number, out: Value): void {
    this.source = source;
    this.at = at;
    this.end = end;
    this.depth = 0;
    out.reset(at);
  }

  private take(): Value {
    while (this.pool.length <= this.depth) this.pool.push(new Value());
    return this.pool[this.depth];
  }

  /** Counts a level of nesting; false (and a problem) when there are too many. */
  private deeper(out: Value): boolean {
    this.depth += 1;
    if (this.depth <= DEPTH_LIMIT) return true;
    out.wrong(
      'expression-too-deep',
      this.at,
      Math.min(this.at + 1, this.end),
      `More than ${DEPTH_LIMIT} levels in one expression.`,
    );
    return false;
  }

  private signed(out: Value): void {
    let negative = false;
    for (let c = this.peek(); c === B.PLUS || c === B.MINUS; c = this.peek()) {
      if (c === B.MINUS) negative = !negative;
      this.at += 1;
    }
    this.primary(out);
    if (negative && out.status === STATUS.known) out.number = -out.number;
  }

  private primary(out: Value): void {
    const c = this.peek();
    if (B.isDigit(c) || c === B.POINT) this.numeral(out);
    else if (c === B.OPEN) this.bracket(out);
    else if (c === B.HASH) this.parameter(out);
    else if (B.isLetter(c)) this.function(out);
    else out.wrong('value-missing', this.at, Math.min(this.at + 1, this.end), 'A number is missing here.');
  }

  private bracket(out: Value): void {
    const from = this.at;
    this.at += 1;
    if (!this.deeper(out)) return;
    this.whole(out);
    this.depth -= 1;
    this.close(from, out);
  }

  private close(from: number, out: Value): void {
    if (this.peek() === B.CLOSE) this.at += 1;
    else out.wrong('bracket-not-closed', from, this.at, 'The bracket [ is not closed.');
  }

  /** `#` seen: reads which parameter and then its value. */
  private parameter(out: Value): void {
    const from = this.at;
    this.at += 1;
    const key = this.reference(out);
    if (key === undefined) return;
    if (typeof key === 'number') this.parameters.read(key, out);
    else if (!this.parameters.readName(key, out)) {
      out.wrong('parameter-not-set', from, this.at, `#<${key}> has no value here.`);
    }
  }

  /** After `#`: the number or the name of the parameter; undefined with a problem in `out`. */
  private reference(out: Value): number | string | undefined {
    const from = this.at;
    if (this.peek() === B.LESS) return this.name(out);
    if (!this.deeper(out)) return undefined;
    const c = this.peek();
    if (B.isDigit(c)) this.numeral(out);
    else if (c === B.HASH) this.parameter(out);
    else if (c === B.OPEN) this.bracket(out);
    else if (B.isLetter(c) && !this.ngc) this.function(out);
    else out.wrong('parameter-number', from - 1, this.at, 'A parameter number is missing after #.');
    this.depth -= 1;
    return this.checked(from, out);
  }

  private checked(from: number, out: Value): number | undefined {
    if (out.status === STATUS.unknown || out.status === STATUS.wrong) return undefined;
    const number = out.status === STATUS.vacant ? 0 : Math.round(out.number);
    if (
      this.parameters.isNumber(number) &&
      (out.status === STATUS.vacant || Math.abs(number - out.number) < 0.0001)
    )
      return number;
    out.wrong('parameter-number', from - 1, this.at, 'This is not the number of a parameter.');
    return undefined;
  }

  private function(out: Value): void {
    const from = this.at;
    const name = this.functionName();
    if (name === undefined) {
      out.wrong(
        'function-unknown',
        from,
        this.wordEnd(from),
        `${this.text(from, this.wordEnd(from)).toUpperCase()} is no function here.`,
      );
      return;
    }
    if (this.peek() !== B.OPEN) {
      out.wrong('function-argument', from, this.at, `${name} needs its argument in brackets [ ].`);
      return;
    }
    if (!this.deeper(out)) return;
    if (name === 'EXISTS') this.exists(out);
    else this.call(name, from, out);
    this.depth -= 1;
  }

  private exists(out: Value): void {
    const from = this.at;
    this.at += 1;
    if (this.peek() !== B.HASH) {
      out.wrong('function-argument', from, this.at, 'EXISTS needs a parameter: EXISTS[#<name>].');
      return;
    }
    this.at += 1;
    const key = this.reference(out);
    if (key === undefined) return;
    out.known(Number(this.parameters.exists(key)));
    this.close(from, out);
  }

  private call(name: string, from: number, out: Value): void {
    const open = this.at;
    this.at += 1;
    this.whole(out);
    let second = false;
    const other = this.take();
    if (this.peek() === B.COMMA && (name === 'ATAN' || name === 'POW')) {
      this.at += 1;
      second = this.argument(other);
    }
    this.close(open, out);
    if (name === 'ATAN' && !second && this.peek() === B.SLASH && this.afterSlash() === B.OPEN) {
      this.at += 1;
      this.peek();
      second = this.argument(other, true);
    }
    if (second && other.status !== STATUS.known) join(out, other);
    this.finish(name, from, out, second ? other : undefined);
  }

  private argument(out: Value, bracketed = false): boolean {
    out.reset(this.at);
    if (!this.deeper(out)) return true;
    if (bracketed) this.bracket(out);
    else this.whole(out);
    this.depth -= 1;
    return true;
  }

  private finish(name: string, from: number, out: Value, other: Value | undefined): void {
    if (out.status === STATUS.wrong || out.status === STATUS.unknown) return;
    if (name === 'ADP') {
      out.unknown('ADP depends on the least increment of the control');
      return;
    }
    const x = out.status === STATUS.vacant ? 0 : out.number;
    const y = other === undefined || other.status === STATUS.vacant ? 0 : other.number;
    if (name === 'POW' || (name === 'ATAN' && (other !== undefined || this.ngc))) {
      if (other === undefined) {
        out.wrong(
          'function-argument',
          from,
          this.at,
          name === 'ATAN' ? 'ATAN needs two values: ATAN[a]/[b].' : 'POW needs two values: POW[a,b].',
        );
      } else if (name === 'ATAN') out.known(arcTangent(x, y));
      else this.settle(OPERATOR.power, x, y, from, out);
      return;
    }
    const fault = functionFault(name, x);
    if (fault === undefined) this.give(apply(name, x, this.ngc), from, out);
    else out.wrong(fault, from, this.at, FAULTS[fault]);
  }

  private settle(operator: number, a: number, b: number, from: number, out: Value): void {
    const fault = operationFault(operator, a, b);
    if (fault === undefined) this.give(operate(operator, a, b, this.ngc), from, out);
    else out.wrong(fault, from, this.at, FAULTS[fault]);
  }

  private give(number: number, from: number, out: Value): void {
    if (Number.isFinite(number)) out.known(number);
    else out.wrong('number-too-large', from, this.at, 'The result is too large for a number.');
  }

  /** All that stands between two brackets, or up to where no operator follows. */
  private whole(out: Value): void {
    const from = this.at;
    const [compared, joined] = [this.compared, this.joined];
    this.compared = false;
    this.joined = false;
    this.binary(0, out);
    if (!this.ngc && this.compared && this.joined) {
      out.wrong(
        'logic-without-brackets',
        from,
        this.at,
        'Comparisons joined by AND, OR or XOR each need their own brackets.',
      );
    }
    this.compared = compared;
    this.joined = joined;
  }

  /** Operands joined by operators stronger than `least`, left to right inside a strength. */
  private binary(least: number, out: Value): void {
    const from = this.at;
    this.signed(out);
    for (;;) {
      const mark = this.at;
      const operator = this.operator();
      if (operator === 0 || this.strength[operator] <= least) {
        this.at = mark;
        return;
      }
      this.compared ||= isComparison(operator);
      this.joined ||= isLogic(operator);
      if (!this.deeper(out)) return;
      const right = this.take();
      right.reset(this.at);
      this.binary(this.strength[operator], right);
      this.depth -= 1;
      this.combine(operator, from, out, right);
    }
  }

  private combine(operator: number, from: number, out: Value, right: Value): void {
    if (out.status === STATUS.wrong) return;
    if (right.status === STATUS.wrong || out.status === STATUS.unknown || right.status === STATUS.unknown) {
      join(out, right);
      return;
    }
    const vacancies = Number(out.status === STATUS.vacant) + Number(right.status === STATUS.vacant);
    if (vacancies > 0 && (operator === OPERATOR.equal || operator === OPERATOR.not_equal)) {
      out.known(Number((vacancies === 2) === (operator === OPERATOR.equal)));
      return;
    }
    const a = out.status === STATUS.vacant ? 0 : out.number;
    const b = right.status === STATUS.vacant ? 0 : right.number;
    this.settle(operator, a, b, from, out);
  }
}

/** Takes over from `other` what keeps the result from being known. */
function join(out: Value, other: Value): void {
  if (other.status === STATUS.wrong) out.wrong(other.problem, other.start, other.end, other.message);
  else if (out.status !== STATUS.unknown && out.status !== STATUS.wrong && other.status === STATUS.unknown)
    out.unknown(other.reason);
}
