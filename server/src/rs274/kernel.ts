/** The kernel that reads plain lines and puts steps away: compiled where the host can run it, else plain out of the same source. */
import { compiledModule, memoryOf } from './compiled-module.ts';
import * as plain from './kernel/index.ts';
import * as memory from './kernel/memory.ts';
import { kernelBytes } from './kernel-bytes.ts';
import { emptyColumns, type StepColumns } from './step-columns.ts';
import type { StepRecorder } from './step-recorder.ts';
import type { StepTable } from './steps.ts';

/** Gives the row of the run for a motion code and a feed in the state that holds. */
export type RunAsked = (motion: number, feed: number) => number;

/** What is known of the runs of a table, by row: see `kernel/memory.ts`. */
export type RunNotes = typeof memory.runs;

/** A kernel that looks at the columns of one table. */
export interface StepKernel {
  /** Numbers that go in and come out: see `kernel/box.ts`. */
  readonly box: Float64Array;
  readonly runs: RunNotes;
  /** All that was compiled into the same module, by name; undefined: use the plain form. */
  readonly exports: WebAssembly.Exports | undefined;
  /** Executes plain lines of a text into the columns of a recorder: see `kernel/lines.ts`. */
  readLines(start: number, limit: number): number;
  /** The narrowest layout for a table: see `kernel/pack.ts`. */
  layoutFor(count: number, arcCount: number, runCount: number): number;
  /** Lays the columns out in a buffer from `at` on. */
  layOut(layout: number, count: number, arcCount: number, buffer: ArrayBuffer, at: number): void;
}

/** The kernel for a table: the compiled one where the table stands in its memory. */
export function kernelOf(table: StepTable): StepKernel {
  const compiled = compiledKernel();
  return compiled !== undefined && isAtHome(table, compiled) ? compiled : plainOver(table);
}

/** The kernel for a text and the recorder that its steps go to. */
export function kernelFor(bytes: Uint8Array, table: StepRecorder, asked: RunAsked): StepKernel {
  const kernel = bytes.length > memory.mostText ? plainOver(table) : kernelOf(table);
  if (kernel === compiled) compiled.useText(bytes, asked);
  else memory.useText(bytes, table, asked);
  return kernel;
}

/** A kernel that looks at the bytes of one text: see `kernel/evidence.ts` and `kernel/ascii.ts`. */
export type TextKernel = Pick<StepKernel, 'box'> & Pick<typeof plain, 'countLines' | 'isLow'>;

/** The kernel for a text whose lines are not executed; good until the next text is looked at. */
export function textKernel(bytes: Uint8Array): TextKernel {
  const kernel = bytes.length > memory.mostText ? undefined : compiledKernel();
  if (kernel !== undefined) kernel.useText(bytes, NO_RUNS);
  else memory.useText(bytes, NO_COLUMNS, NO_RUNS);
  return kernel ?? { box: memory.box, countLines: plain.countLines, isLow: plain.isLow };
}

/** Whether all bytes are below 128. */
export function isAscii(bytes: Uint8Array): boolean {
  for (let at = 0; at < bytes.length; at += memory.mostText) {
    const piece = bytes.subarray(at, at + memory.mostText);
    if (!textKernel(piece).isLow(piece.length)) return false;
  }
  return true;
}

/** Lets go of the text and the table that were looked at last: nothing of a program is held longer than its owner holds it. */
export function release(): void {
  memory.useText(NO_TEXT, NO_COLUMNS, NO_RUNS);
  memory.useTable(NO_COLUMNS);
  memory.usePacked(NO_BUFFER, 0);
  compiled?.useText(NO_TEXT, NO_RUNS);
}

const NO_TEXT = new Uint8Array(0);
const NO_COLUMNS = emptyColumns(0);
const NO_RUNS: RunAsked = () => -1;
const NO_BUFFER = new ArrayBuffer(0);

function isAtHome(table: StepTable, { columns }: CompiledKernel): boolean {
  return table.x === columns.x && table.arcs === columns.arcs && table.runCount <= memory.mostRuns;
}

function plainOver(table: StepTable): StepKernel {
  memory.useTable(table);
  memory.useRuns(table.runCount);
  return PLAIN;
}

plain.begin();
const PLAIN: StepKernel = {
  box: memory.box,
  get runs() {
    return memory.runs;
  },
  exports: undefined,
  readLines: plain.readLines,
  layoutFor: plain.layoutFor,
  layOut(layout, count, arcCount, buffer, at) {
    memory.usePacked(buffer, at);
    plain.layOut(layout, count, arcCount);
  },
};

/** The compiled kernel, and the columns in its memory. */
interface CompiledKernel extends StepKernel, TextKernel {
  readonly columns: StepColumns;
  useText(bytes: Uint8Array, asked: RunAsked): void;
}

let compiled: CompiledKernel | undefined;
let made = false;
let allowed = true;

/** Runs a function with the plain kernel alone: what both say is compared in tests. */
export function withPlainKernel<T>(run: () => T): T {
  allowed = false;
  try {
    return run();
  } finally {
    allowed = true;
  }
}

/** Columns in the memory of the compiled kernel, where one table at a time may stand; undefined where there is none. */
export function compiledColumns(): StepColumns | undefined {
  return compiledKernel()?.columns;
}

function compiledKernel(): CompiledKernel | undefined {
  if (!made) compiled = makeCompiled();
  made = true;
  return allowed ? compiled : undefined;
}

type Exports = Pick<typeof plain, 'begin' | 'isLow' | 'countLines' | 'readLines' | 'layoutFor' | 'layOut'> & {
  addressOf(what: number): number;
};

const PAGE_BYTES = 65_536;
/** Rooms in the order of `addressOf`. */
const ROOMS = [
  ...['box', 'text', 'x', 'y', 'z', 'arcs', 'line', 'run', 'aux', 'kind', 'flags', 'powers'],
  ...['likes', 'planes', 'seen', 'packed', 'tens', 'end'],
] as const;
/** Pages that the module states as its least. */
const PAGES = 48;

function makeCompiled(): CompiledKernel | undefined {
  const module = compiledModule(kernelBytes);
  const held = module && memoryOf(PAGES);
  if (module === undefined || held === undefined) return undefined;
  let asked: RunAsked = () => -1;
  const { exports } = new WebAssembly.Instance(module, {
    env: { memory: held },
    memory: { askRun: (motion: number, feed: number) => asked(motion, feed), atan2: Math.atan2 },
  });
  const { addressOf, begin, isLow, countLines, readLines, layoutFor, layOut } = exports as unknown as Exports;
  const at = Object.fromEntries(ROOMS.map((room, what) => [room, addressOf(what)]));
  if (at.end > PAGES * PAGE_BYTES) throw new RangeError('the kernel has too little memory');
  begin();
  const { buffer } = held;
  const doubles = (room: string, length: number) => new Float64Array(buffer, at[room], length);
  const integers = (room: string, length: number) => new Int32Array(buffer, at[room], length);
  const bytes = (room: string, length: number) => new Uint8Array(buffer, at[room], length);
  doubles('powers', memory.powers.length).set(memory.powers);
  integers('tens', memory.powers.length).set(memory.powers);
  const { mostSteps, mostArcs, mostRuns, mostText } = memory;
  const text = bytes('text', mostText + 1);
  return {
    box: doubles('box', memory.box.length),
    columns: {
      x: doubles('x', mostSteps),
      y: doubles('y', mostSteps),
      z: doubles('z', mostSteps),
      arcs: doubles('arcs', 3 * mostArcs),
      line: integers('line', mostSteps),
      run: integers('run', mostSteps),
      aux: integers('aux', mostSteps),
      kind: bytes('kind', mostSteps),
      flags: bytes('flags', mostSteps),
    },
    runs: {
      likes: integers('likes', mostRuns),
      planes: integers('planes', mostRuns),
      seen: bytes('seen', mostRuns),
    },
    exports,
    countLines,
    isLow: length => Boolean(isLow(length)),
    readLines,
    layoutFor,
    layOut(layout, count, arcCount, to, from) {
      const length = layOut(layout, count, arcCount);
      new Uint8Array(to, from, length).set(new Uint8Array(buffer, at.packed, length));
    },
    useText(chunk, runs) {
      asked = runs;
      text.set(chunk);
      text[chunk.length] = 0;
    },
  };
}
