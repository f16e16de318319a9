import type { ProgramText } from '../text.ts';
import { FlowProgram, type ProgramPart } from './program.ts';

/** Finds the text of a program of the same folder by name, without ending. */
export type ResolveFile = (name: string) => ProgramText | undefined;

export interface Target {
  program: FlowProgram;
  part: ProgramPart;
  line: number;
}

/** All programs that a run can reach: the file itself and what it calls from its folder. */
export class Library {
  readonly main: FlowProgram;
  private readonly files = new Map<string, FlowProgram | undefined>();

  constructor(
    text: ProgramText,
    private readonly resolve: ResolveFile,
  ) {
    this.main = new FlowProgram(text, '');
  }

  /** O program `number`: in `here`, in the main file, or a file named after it. */
  program(number: number, here: FlowProgram): Target | undefined {
    for (const program of here === this.main ? [here] : [here, this.main]) {
      const part = program.partNumbered(number);
      if (part !== undefined) return { program, part, line: part.first };
    }
    const plain = String(number);
    for (const name of [`O${plain}`, `O${plain.padStart(4, '0')}`, plain, plain.padStart(4, '0')]) {
      const program = this.file(name);
      if (program === undefined) continue;
      const part = program.partNumbered(number) ?? program.parts[0];
      return { program, part, line: part.first };
    }
    return undefined;
  }

  /** O-word subroutine `label`: in `here`, in the main file, or in the file of that name. */
  sub(label: string, here: FlowProgram): Target | undefined {
    for (const program of here === this.main ? [here] : [here, this.main]) {
      const line = program.subs.get(label);
      if (line !== undefined) return { program, part: program.partOf(line), line };
    }
    const program = this.file(label);
    const line = program?.subs.get(label);
    return program === undefined || line === undefined
      ? undefined
      : { program, part: program.partOf(line), line };
  }

  private file(name: string): FlowProgram | undefined {
    if (this.files.has(name)) return this.files.get(name);
    const text = this.resolve(name);
    const program = text === undefined ? undefined : new FlowProgram(text, name);
    this.files.set(name, program);
    return program;
  }
}

const CALL = /(?:M\s*0*(?:98|198)|G\s*0*6[56])(?![\d.]).*?P\s*0*(\d+)/i;

/** Bytes of a line that are looked at for a call. */
const LONGEST_CALL = 1000;

/** The O program that a file begins with: the first, or the first that no other one of the file calls. */
export function mainPart(program: FlowProgram): ProgramPart {
  const { parts } = program;
  if (parts.length === 1) return parts[0];
  const called = new Set<number>();
  for (let line = 0; line < program.lineCount; line += 1) {
    const bytes = program.bytes(line).subarray(program.start(line), program.end(line));
    // A call has a P, and nearly no line has one.
    if (!bytes.includes(80) && !bytes.includes(112)) continue;
    const text = String.fromCharCode(...bytes.subarray(0, LONGEST_CALL));
    const digits = CALL.exec(text.replace(/\([^)]*\)/g, ''))?.[1];
    if (digits === undefined) continue;
    called.add(Number(digits));
    if (digits.length > 4) called.add(Number(digits.slice(-4)));
  }
  return parts.find(part => !called.has(part.number)) ?? parts[0];
}
