import type { ExpressionReader } from '../expressions/reader.ts';
import { STATUS, Value } from '../expressions/value.ts';
import type { ValueSource } from '../value-source.ts';

type Read = ReturnType<ValueSource['read']>;

/** Gives block readers the values of expressions. */
export class FlowValues implements ValueSource {
  private text = '';
  private bytes: Uint8Array = new Uint8Array(0);
  private readonly out = new Value();

  constructor(private readonly expressions: ExpressionReader) {}

  read(text: string, start: number): Read {
    const { out } = this;
    const bytes = this.bytesOf(text);
    this.expressions.value(bytes, start, bytes.length, out);
    const read: Read = { value: out.number, end: out.next };
    if (out.status === STATUS.vacant) read.vacant = true;
    const problem = this.problem(start);
    return problem === undefined ? read : { ...read, problem };
  }

  assign(text: string, start: number): ReturnType<ValueSource['assign']> {
    const { out } = this;
    const bytes = this.bytesOf(text);
    this.expressions.setting(bytes, start, bytes.length, out);
    const end = out.next;
    const problem = out.status === STATUS.wrong ? this.problem(start) : undefined;
    return problem === undefined ? { end } : { end, problem };
  }

  private problem(start: number): Read['problem'] {
    const { out } = this;
    if (out.status === STATUS.wrong) {
      return {
        code: out.problem,
        message: out.message,
        start: out.start,
        end: out.end,
      };
    }
    if (out.status === STATUS.unknown) {
      return {
        code: 'value-not-known',
        message: `Not known here: ${out.reason}.`,
        start,
        end: out.next,
      };
    }
    return undefined;
  }

  /** The line as bytes; several values stand on one line. */
  private bytesOf(text: string): Uint8Array {
    if (text !== this.text) {
      this.text = text;
      this.bytes = Uint8Array.from(text, unit => unit.charCodeAt(0));
    }
    return this.bytes;
  }
}
