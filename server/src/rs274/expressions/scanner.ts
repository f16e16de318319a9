import { GREATER, isDigit, isLetter, MINUS, PLUS, POINT, SLASH, STAR, ZERO } from './bytes.ts';
import { functionNames, plainName } from './functions.ts';
import { OPERATOR, OPERATOR_WORDS } from './operators.ts';
import type { Value } from './value.ts';

/** Takes numbers, names and operators out of bytes; blanks count for nothing. */
export class ExpressionScanner {
  protected source: Uint8Array = new Uint8Array(0);
  protected at = 0;
  protected end = 0;

  constructor(protected readonly ngc: boolean) {}

  protected peek(): number {
    while (this.at < this.end) {
      const c = this.source[this.at];
      if (c !== 32 && c !== 9) return c;
      this.at += 1;
    }
    return 0;
  }

  protected numeral(out: Value): void {
    const from = this.at;
    let mantissa = 0;
    let places = 0;
    let count = 0;
    let point = false;
    for (let c = this.peek(); ; c = this.peek()) {
      if (isDigit(c)) {
        mantissa = mantissa * 10 + (c - ZERO);
        count += 1;
        if (point) places += 1;
      } else if (c === POINT && !point) point = true;
      else break;
      this.at += 1;
    }
    if (count === 0) out.wrong('value-missing', from, this.at, 'A point alone is no number.');
    else if (count <= 15) out.known(places === 0 ? mantissa : mantissa / 10 ** places);
    else out.known(Number(this.text(from, this.at).replace(/[ \t]/g, '')));
  }

  protected name(out: Value): string | undefined {
    const from = this.at;
    let name = '';
    for (this.at += 1; this.at < this.end; this.at += 1) {
      const c = this.source[this.at];
      if (c === GREATER) {
        this.at += 1;
        if (name !== '') return name;
        break;
      }
      if (c !== 32 && c !== 9) name += String.fromCharCode(c).toLowerCase();
    }
    out.wrong('parameter-name', from - 1, this.at, 'The name of the parameter does not end with >.');
    return undefined;
  }

  protected functionName(): string | undefined {
    const word = this.text(this.at, this.wordEnd(this.at)).toUpperCase();
    const found = functionNames(this.ngc).find(name => word.startsWith(name));
    if (found === undefined) return undefined;
    this.at += found.length;
    return plainName(found);
  }

  /** Reads an operator; 0 when there is none here. */
  protected operator(): number {
    const c = this.peek();
    if (c === STAR) {
      this.at += 1;
      if (this.source[this.at] !== STAR || this.at >= this.end || !this.ngc) return OPERATOR.times;
      this.at += 1;
      return OPERATOR.power;
    }
    const sign =
      c === SLASH ? OPERATOR.divide : c === PLUS ? OPERATOR.plus : c === MINUS ? OPERATOR.minus : 0;
    if (sign !== 0) {
      this.at += 1;
      return sign;
    }
    return isLetter(c) ? this.wordOperator() : 0;
  }

  protected wordOperator(): number {
    const word = this.text(this.at, Math.min(this.at + 3, this.wordEnd(this.at))).toUpperCase();
    const long = OPERATOR_WORDS[word];
    const operator = long ?? OPERATOR_WORDS[word.slice(0, 2)] ?? 0;
    if (operator !== 0) this.at += long === undefined ? 2 : word.length;
    return operator;
  }

  protected afterSlash(): number {
    let p = this.at + 1;
    while (p < this.end && (this.source[p] === 32 || this.source[p] === 9)) p += 1;
    return p < this.end ? this.source[p] : 0;
  }

  protected wordEnd(from: number): number {
    let p = from;
    while (p < this.end && isLetter(this.source[p])) p += 1;
    return p;
  }

  protected text(from: number, to: number): string {
    let text = '';
    for (let p = from; p < to; p += 1) text += String.fromCharCode(this.source[p]);
    return text;
  }
}
