import type { SystemEvents } from './system.ts';

/** What settings of control parameters asked for in the block being executed. */
export class BlockEvents implements SystemEvents {
  private alarmed: number | undefined;
  private stopped = false;

  alarm(number: number): void {
    this.alarmed = number;
  }

  stop(): void {
    this.stopped = true;
  }

  /** Whether a stop was asked for; asks once. */
  takeStop(): boolean {
    const asked = this.stopped;
    this.stopped = false;
    return asked;
  }

  /** The message of an alarm with the comment of the line; undefined without an alarm. */
  takeAlarm(line: Uint8Array): string | undefined {
    if (this.alarmed === undefined) return undefined;
    const open = line.indexOf(40);
    const close = line.indexOf(41);
    const text =
      open >= 0 && close > open ? `: ${String.fromCharCode(...line.subarray(open + 1, close))}` : '';
    const message = `The program stops with alarm ${this.alarmed}${text}.`;
    this.alarmed = undefined;
    return message;
  }
}

/** The message of an `(ABORT, ...)` comment, which ends the program (the report's successor, from memory). */
export function abortOf(line: Uint8Array): string | undefined {
  const text = /\(\s*abort\s*,([^)]*)/i.exec(String.fromCharCode(...line.subarray(0, LONGEST)))?.[1];
  return text === undefined ? undefined : `The program stops here: ${text.trim()}.`;
}

/** Bytes of a line that are looked at. */
const LONGEST = 1000;
