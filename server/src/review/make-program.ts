import { isAbsent } from '../cutting/result.ts';
import { findMaterial, type Window, windowFor } from '../materials/index.ts';
import { blockAt, type Reading, type StepCursor } from '../rs274/index.ts';
import { type MachineKnown, machineOf, type ToolKnown } from '../setup/index.ts';
import { addLoads } from './cuts/add-loads.ts';
import { cutNow } from './cuts/cut-now.ts';
import type { Place } from './finding.ts';
import type { Knowledge } from './knowledge.ts';
import { knownTools } from './known-tools.ts';
import { once } from './once.ts';
import type { Program, WordAt } from './program.ts';
import { programParts } from './program-parts.ts';
import { problemsOf } from './program-problems.ts';
import { shopMaterials } from './shop-materials.ts';
import { toolUses } from './tool-use.ts';

/** How far back the line that set a word is looked for. */
const REACH = 400;
/** Joins a reading with what is known beside it. */
export function makeProgram(reading: Reading, knowledge: Knowledge): Program {
  const { settled } = reading;
  const cribs = knowledge.cribs ?? [];
  const { sheet } = knowledge;
  const kind =
    settled.kind.value === 'mill' || settled.kind.value === 'lathe' ? settled.kind.value : undefined;
  const known = knowledge.machine ?? machineOf(sheet, cribs, { kind });
  const units = settled.units.how === 'unknown' ? undefined : settled.units.value;
  const parts = once(() => programParts(reading));
  const tools = once(() => knownTools(reading, parts(), { knowledge, known, units, kind }));
  const uses = once(() => toolUses(parts(), number => tools().get(number)));
  const materialName = sheet?.workpiece?.material;
  const materialFound =
    materialName &&
    findMaterial(materialName.value, {
      hardness: sheet?.workpiece?.hardness?.value,
      materials: shopMaterials(cribs),
    });
  const material = materialFound?.kind === 'found' ? materialFound.material : undefined;
  const windows = new Map<number, Window | undefined>();
  const words = wordCache(reading);

  const program: Mutable<Program> = {
    reading,
    kind,
    dialect: settled.dialect.value,
    unitsKnown: units !== undefined,
    shown: knowledge.shown === 'inch' || knowledge.shown === 'mm' ? knowledge.shown : (units ?? 'mm'),
    sheet,
    crib: cribs[0],
    machine: known.machine,
    material,
    materialFound,
    materialName,
    get parts() {
      return parts();
    },
    get uses() {
      return uses();
    },
    lineCount: reading.text.lineCount,
    cuts: undefined,
    record: undefined,
    tool: number => tools().get(number),
    window(number) {
      if (!windows.has(number)) windows.set(number, windowOf(tools().get(number), program));
      return windows.get(number);
    },
    problems: () => problemsOf(reading),
    words,
    wordPlace(line, letter, value) {
      const word = words(line).find(w => w.letter === letter && (value === undefined || w.value === value));
      return word
        ? { line, column: word.start, end_line: line, end_column: word.end }
        : blockPlace(reading, line);
    },
    blockPlace: line => blockPlace(reading, line),
    lineOfWord(letter, from) {
      for (let line = from; line >= 0 && line > from - REACH; line--)
        if (words(line).some(w => w.letter === letter)) return line;
      return -1;
    },
    rapidSeconds: step => rapidSeconds(known, step),
    rapidSecondsOf: length => rapidSecondsOf(known, length),
  };
  const { cuts, earlier } = knowledge;
  if (earlier) program.earlier = earlier;
  const made = cuts === 'now' ? cutNow(program) : cuts;
  if (made && 'why' in made) program.uncut_why = made.why;
  else program.cuts = made;
  if (program.cuts) program.cutFacts = (step, tool, facts) => addLoads(program, step, tool, facts);
  return program;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

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

function wordCache(reading: Reading): (line: number) => readonly WordAt[] {
  let held = -1;
  let words: readonly WordAt[] = [];
  return line => {
    if (line !== held) {
      words =
        line >= 0 && line < reading.text.lineCount ? blockAt(reading.text, line, reading.settled).words : [];
      held = line;
    }
    return words;
  };
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
