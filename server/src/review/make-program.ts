import { isAbsent } from '../cutting/result.ts';
import { findMaterial, type Window, windowFor } from '../materials/index.ts';
import { blockAt, type Reading, type StepCursor } from '../rs274/index.ts';
import { type MachineKnown, machineOf, type ToolKnown } from '../setup/index.ts';
import { addLoads } from './cuts/add-loads.ts';
import { cutNow } from './cuts/cut-now.ts';
import type { Place } from './finding.ts';
import type { Knowledge } from './knowledge.ts';
import { knownTools } from './known-tools.ts';
import { wordsOfLine } from './line-words.ts';
import type { Part } from './part.ts';
import type { Program, WordAt } from './program.ts';
import { programParts } from './program-parts.ts';
import { problemsOf } from './program-problems.ts';
import { shopMaterials } from './shop-materials.ts';
import { type ToolUse, toolUses } from './tool-use.ts';

/** How far back the line that set a word is looked for. */
const REACH = 400;
/** Joins a reading with what is known beside it. */
export function makeProgram(reading: Reading, knowledge: Knowledge): Program {
  const program = new KnownProgram(reading, knowledge);
  const { cuts } = knowledge;
  const made = cuts === 'now' ? cutNow(program) : cuts;
  if (made && 'why' in made) program.uncut_why = made.why;
  else program.cuts = made;
  if (program.cuts) program.cutFacts = (step, tool, facts) => addLoads(program, step, tool, facts);
  return program;
}

/**
 * A class, for getters in an object literal make a shape of their own for every program: what a typist's keys make would
 * live until everything is collected.
 */
class KnownProgram implements Program {
  readonly kind: Program['kind'];
  readonly dialect: string;
  readonly unitsKnown: boolean;
  readonly shown: Program['shown'];
  readonly sheet: Program['sheet'];
  readonly crib: Program['crib'];
  readonly machine: Program['machine'];
  readonly material: Program['material'];
  readonly materialFound: Program['materialFound'];
  readonly materialName: Program['materialName'];
  readonly lineCount: number;
  readonly record = undefined;
  readonly earlier: Program['earlier'];
  cuts: Program['cuts'];
  uncut_why: Program['uncut_why'];
  cutFacts: Program['cutFacts'];
  private readonly known: MachineKnown;
  private readonly units: 'inch' | 'mm' | undefined;
  private readonly windows = new Map<number, Window | undefined>();
  private parts_made: readonly Part[] | undefined;
  private uses_made: readonly ToolUse[] | undefined;
  private tools_made: Map<number, ToolKnown> | undefined;

  constructor(
    readonly reading: Reading,
    private readonly knowledge: Knowledge,
  ) {
    const { settled } = reading;
    const { sheet, shown, earlier } = knowledge;
    const cribs = knowledge.cribs ?? [];
    const kind = settled.kind.value;
    this.kind = kind === 'mill' || kind === 'lathe' ? kind : undefined;
    this.known = knowledge.machine ?? machineOf(sheet, cribs, { kind: this.kind });
    this.units = settled.units.how === 'unknown' ? undefined : settled.units.value;
    this.materialName = sheet?.workpiece?.material;
    this.materialFound =
      this.materialName &&
      findMaterial(this.materialName.value, {
        hardness: sheet?.workpiece?.hardness?.value,
        materials: shopMaterials(cribs),
      });
    this.dialect = settled.dialect.value;
    this.unitsKnown = this.units !== undefined;
    this.shown = shown === 'inch' || shown === 'mm' ? shown : (this.units ?? 'mm');
    this.sheet = sheet;
    this.crib = cribs[0];
    this.machine = this.known.machine;
    this.material = this.materialFound?.kind === 'found' ? this.materialFound.material : undefined;
    this.lineCount = reading.text.lineCount;
    this.earlier = earlier;
  }

  get parts(): readonly Part[] {
    this.parts_made ??= programParts(this.reading);
    return this.parts_made;
  }

  get uses(): readonly ToolUse[] {
    this.uses_made ??= toolUses(this.parts, number => this.tool(number));
    return this.uses_made;
  }

  tool(number: number): ToolKnown | undefined {
    const { reading, knowledge, known, units, kind } = this;
    this.tools_made ??= knownTools(reading, { knowledge, known, units, kind });
    return this.tools_made.get(number);
  }

  window(number: number): Window | undefined {
    if (!this.windows.has(number)) this.windows.set(number, windowOf(this.tool(number), this));
    return this.windows.get(number);
  }

  problems(): ReturnType<Program['problems']> {
    return problemsOf(this.reading);
  }

  words(line: number): readonly WordAt[] {
    return wordsOfLine(this.reading, line);
  }

  wordPlace(line: number, letter: string, value?: number): Place {
    const word = this.words(line).find(
      w => w.letter === letter && (value === undefined || w.value === value),
    );
    return word ? { line, column: word.start, end_line: line, end_column: word.end } : this.blockPlace(line);
  }

  blockPlace(line: number): Place {
    return blockPlace(this.reading, line);
  }

  lineOfWord(letter: string, from: number): number {
    for (let line = from; line >= 0 && line > from - REACH; line--)
      if (this.words(line).some(w => w.letter === letter)) return line;
    return -1;
  }

  rapidSeconds(step: StepCursor): number {
    return rapidSeconds(this.known, step);
  }

  rapidSecondsOf(length_mm: number): number {
    return rapidSecondsOf(this.known, length_mm);
  }
}

function windowOf(tool: ToolKnown | undefined, program: Program): Window | undefined {
  if (!tool?.kind) return undefined;
  const { maker } = tool;
  const workholding = program.sheet?.workholding;
  const pair = (range: { value: readonly number[] } | undefined): [number, number] | undefined =>
    range && [range.value[0], range.value[1]];
  const found = windowFor({
    material: program.material,
    kind: tool.kind.value,
    substrate: tool.substrate?.value,
    diameter_mm: tool.diameter_mm?.value,
    teeth: tool.teeth?.value,
    nose_radius_mm: tool.nose_radius_mm?.value,
    width_mm: tool.width_mm?.value,
    setup: {
      stickout_mm: tool.stickout_mm?.value,
      grip: workholding?.grip?.value,
      wear: tool.wear?.value,
      runout_mm: tool.runout_mm?.value,
    },
    ...(maker
      ? {
          maker: {
            chip_load_mm: pair(maker.chip_load_mm),
            feed_per_rev_mm: pair(maker.feed_per_rev_mm),
            surface_speed_m_min: pair(maker.surface_speed_m_min),
            source: maker.source?.value ?? "the maker's figures in the setup sheet",
          },
        }
      : {}),
  });
  return isAbsent(found) ? undefined : found;
}

function blockPlace(reading: Reading, line: number): Place {
  const text = reading.text.lineText(line);
  const block = blockAt(reading.text, line, reading.settled);
  const first = block.words[0];
  const last = block.words.at(-1);
  const column = first?.start ?? text.length - text.trimStart().length;
  return { line, column, end_line: line, end_column: Math.max(column, last?.end ?? text.trimEnd().length) };
}

function rapidSeconds(machine: MachineKnown, step: StepCursor): number {
  const rapid = machine.machine?.rapid_mm_min?.value;
  if (rapid === undefined) return Number.NaN;
  if (typeof rapid === 'number') return (60 * step.length_mm) / rapid;
  let seconds = 0;
  for (const [axis, way] of [
    ['x', step.x - step.x0],
    ['y', step.y - step.y0],
    ['z', step.z - step.z0],
  ] as const) {
    if (way === 0) continue;
    const speed = rapid.get(axis);
    if (speed === undefined) return Number.NaN;
    seconds = Math.max(seconds, (60 * Math.abs(way)) / speed);
  }
  return seconds;
}

function rapidSecondsOf(machine: MachineKnown, length_mm: number): number {
  const rapid = machine.machine?.rapid_mm_min?.value;
  if (rapid === undefined) return Number.NaN;
  const slowest = typeof rapid === 'number' ? rapid : Math.min(...rapid.values());
  return (60 * length_mm) / slowest;
}
