import type { ValueSource } from '../block-reader.ts';
import type { ExpressionReader } from '../expressions/reader.ts';
import { STATUS, Value } from '../expressions/value.ts';

type Read = ReturnType<ValueSource['read']>;

/** Gives the block reader the values of expressions on the line that it reads. */
export class FlowValues implements ValueSource {
  private bytes: Uint8Array = new Uint8Array(0);
  private base = 0;
  private end = 0;
  private readonly out = new Value();

  constructor(private readonly expressions: ExpressionReader) {}

  /** Says which line the block reader is about to read. */
  at(bytes: Uint8Array, start: number, end: number): void {
    this.bytes = bytes;
    this.base = start;
    this.end = end;
  }

  read(_text: string, start: number): Read {
    const { out } = this;
    this.expressions.value(this.bytes, this.base + start, this.end, out);
    const read: Read = { value: out.number, end: out.next - this.base };
    if (out.status === STATUS.vacant) read.vacant = true;
    const problem = this.problem(start);
    return problem === undefined ? read : { ...read, problem };
  }

  assign(_text: string, start: number): ReturnType<ValueSource['assign']> {
    const { out } = this;
    this.expressions.setting(this.bytes, this.base + start, this.end, out);
    const end = out.next - this.base;
    const problem = out.status === STATUS.wrong ? this.problem(start) : undefined;
    return problem === undefined ? { end } : { end, problem };
  }

  private problem(start: number): Read['problem'] {
    const { out } = this;
    if (out.status === STATUS.wrong) {
      return {
        code: out.problem,
        message: out.message,
        start: out.start - this.base,
        end: out.end - this.base,
      };
    }
    if (out.status === STATUS.unknown) {
      return {
        code: 'value-not-known',
        message: `Not known here: ${out.reason}.`,
        start,
        end: out.next - this.base,
      };
    }
    return undefined;
  }
}
