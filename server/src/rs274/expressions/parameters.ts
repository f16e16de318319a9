import type { Dialect } from '../codes/shape.ts';
import type { Value } from './value.ts';

/**
 * The parameters that belong to the control, read from the state of the program. A number is known; NaN: the control
 * has it but the program does not tell it; undefined: not a system parameter here.
 */
export interface SystemParameters {
  read(number: number): number | undefined;
  readName(name: string): number | undefined;
  /** Told of every assignment of a system parameter; the store keeps the value too. */
  write(number: number, value: number): void;
}

const NO_SYSTEM: SystemParameters = {
  read: () => undefined,
  readName: () => undefined,
  write: () => undefined,
};

/** Values by number or name; absent is never set, NaN is not known. */
interface Level {
  numbers: Map<number, number>;
  names: Map<string, number>;
}

const newLevel = (): Level => ({ numbers: new Map(), names: new Map() });

/** Highest number of the local parameters: 1 to 30 in `ngc`, 1 to 33 on word-address controls. */
const LOCALS = { ngc: 30, macro: 33 };
/** Highest parameter number of the report's successor; of word-address controls. */
const HIGHEST = { ngc: 5602, macro: 99_999 };
/** First system parameter. */
const SYSTEM_FROM = { ngc: 5061, macro: 1000 };

const TIMERS: ReadonlySet<number> = new Set([3001, 3002]);

/**
 * Parameters of a run: locals by call level, commons, names, and the control's own. Assignments of a block wait until
 * `commit`, so that the whole block reads the old values (NISTIR 6556 section 3.3.2.2).
 */
export class Parameters {
  readonly ngc: boolean;
  system: SystemParameters;
  /** Counts up with every change: equal counts are equal parameters. */
  changes = 0;
  private levels: Level[] = [newLevel()];
  private common = new Map<number, number>();
  private global = new Map<string, number>();
  private waiting: { key: number | string; value: number | undefined }[] = [];

  constructor(dialect: Dialect, system: SystemParameters = NO_SYSTEM) {
    this.ngc = dialect === 'ngc';
    this.system = system;
  }

  get depth(): number {
    return this.levels.length;
  }

  /** Opens a call level. In `ngc` only numbers 1 to 30 and local names are new; arguments not given are 0 there, vacant elsewhere. */
  enter(args: ReadonlyMap<number, number>): void {
    this.changes += 1;
    this.levels.push({ numbers: new Map(args), names: new Map() });
  }

  leave(): void {
    this.changes += 1;
    if (this.levels.length > 1) this.levels.pop();
  }

  isNumber(number: number): boolean {
    const highest = this.ngc ? HIGHEST.ngc : HIGHEST.macro;
    return Number.isInteger(number) && number >= (this.ngc ? 1 : 0) && number <= highest;
  }

  isSystem(number: number): boolean {
    return number >= (this.ngc ? SYSTEM_FROM.ngc : SYSTEM_FROM.macro);
  }

  /** Reads parameter `number`, which is one (`isNumber`). */
  read(number: number, out: Value): void {
    if (number === 0) {
      out.vacant();
      return;
    }
    const value = this.stored(number);
    if (value === undefined) this.readUnset(number, out);
    else this.give(value, `#${number}`, out);
  }

  /** Reads a named parameter; false when it was never set. */
  readName(name: string, out: Value): boolean {
    const value = this.storedName(name);
    if (value === undefined) {
      if (!this.ngc) out.vacant();
      return !this.ngc;
    }
    this.give(value, `#<${name}>`, out);
    return true;
  }

  exists(key: number | string): boolean {
    if (typeof key === 'number') return this.ngc || this.stored(key) !== undefined;
    return this.storedName(key) !== undefined;
  }

  /** Notes an assignment; it counts from `commit` on. Undefined makes the parameter vacant, NaN unknown. */
  assign(key: number | string, value: number | undefined): void {
    this.waiting.push({ key, value });
  }

  get hasWaiting(): boolean {
    return this.waiting.length > 0;
  }

  /** Carries out the assignments of the block, in order. */
  commit(): void {
    for (const { key, value } of this.waiting) {
      if (typeof key === 'string') this.setName(key, value);
      else this.set(key, value);
    }
    this.waiting.length = 0;
  }

  /** Sets a parameter at once. */
  set(number: number, value: number | undefined): void {
    if (number === 0) return;
    // The timers of a control run on after they are set.
    if (!this.ngc && TIMERS.has(number)) value = Number.NaN;
    this.change(this.mapOf(number), number, value);
    if (this.isSystem(number)) this.system.write(number, value ?? 0);
  }

  /** Sets a named parameter at once. */
  setName(name: string, value: number | undefined): void {
    this.change(name.startsWith('_') ? this.global : this.top.names, name, value);
  }

  private change<K>(map: Map<K, number>, key: K, value: number | undefined): void {
    if (!Object.is(map.get(key), value)) this.changes += 1;
    if (value === undefined) map.delete(key);
    else map.set(key, value);
  }

  private get top(): Level {
    return this.levels[this.levels.length - 1];
  }

  private mapOf(number: number): Map<number, number> {
    return number <= (this.ngc ? LOCALS.ngc : LOCALS.macro) ? this.top.numbers : this.common;
  }

  private stored(number: number): number | undefined {
    if (this.isSystem(number)) {
      const value = this.system.read(number);
      if (value !== undefined && !Number.isNaN(value)) return value;
      return this.common.get(number) ?? value;
    }
    return this.mapOf(number).get(number);
  }

  private storedName(name: string): number | undefined {
    const own = name.startsWith('_') ? this.global.get(name) : this.top.names.get(name);
    return own ?? this.system.readName(name);
  }

  private give(value: number, name: string, out: Value): void {
    if (Number.isNaN(value)) out.unknown(`${name} is not known from the program`);
    else out.known(value);
  }

  /** Never set: 0 in `ngc`; elsewhere vacant, but unknown where the control keeps it from before. */
  private readUnset(number: number, out: Value): void {
    if (this.ngc) {
      if (this.isSystem(number)) out.unknown(`#${number} belongs to the control`);
      else out.known(0);
    } else if (this.isSystem(number)) out.unknown(`#${number} belongs to the control`);
    else if (number >= 500) out.unknown(`#${number} is kept by the control from before`);
    else out.vacant();
  }
}
