import {
  type Coolant,
  coolants,
  quoteSpec,
  setupsSpec,
  silenceSpec,
  workholdingSpec,
  workpieceSpec,
} from './job-keys.ts';
import type { Known } from './known.ts';
import { cribMachineSpec, machineSpec } from './machine-keys.ts';
import { materialSpec } from './material-keys.ts';
import { insideFolder, recordEndings } from './paths.ts';
import type { SheetProblem } from './problem.ts';
import type { SheetUnits } from './quantity.ts';
import { readJsonText } from './sheet-text.ts';
import { either, field, map, mapped, object, type Read, type Spec, section } from './spec.ts';
import { oneOf, text } from './spec-leaves.ts';
import { cribToolSpec, toolSpec, toolsByNumber } from './tool-keys.ts';

const unitsField = field('units', oneOf('inch', 'mm'), 'Units of bare numbers in this file.', {
  example: '"inch"',
});
const nameForm = { what: 'a name', pattern: '^.{1,100}$', example: 'em-12-3fl' };
const byName = <T>(of: Spec<T>): Spec<Map<string, T>> =>
  map(of, nameForm, key => (key.trim() !== '' && key.length <= 100 ? key : undefined));

const machineName = mapped(text(), (name, node, context) => ({
  named: { value: name, origin: context.origin(node) },
}));
const machineHere = mapped(machineSpec, machine => ({ here: machine }));

const sheetRows = {
  units: unitsField,
  machine: section(
    'machine',
    either(machineName, machineHere),
    'The machine: its name in the crib, or written out here.',
    { example: '"mill-3"' },
  ),
  workpiece: section('workpiece', workpieceSpec, 'What is cut.', { example: '{ "material": "6061-T6" }' }),
  workholding: section('workholding', workholdingSpec, 'How it is held.', { example: '{ "grip": "firm" }' }),
  coolant: field('coolant', oneOf(...coolants), 'Coolant when the program switches it on.', {
    example: '"flood"',
  }),
  tools: section('tools', toolsByNumber(toolSpec), 'Tools by their number.', {
    example: '{ "1": { "kind": "end-mill", "diameter": "1/2 in", "teeth": 3 } }',
  }),
  setups: section(
    'setups',
    setupsSpec,
    'More than one part or side: stock, zero and keep-outs by work offset.',
    { example: '{ "G54": {}, "G55": { "same_as": "G54" } }' },
  ),
  quote: section('quote', quoteSpec, 'What was quoted.', { example: '{ "time": "8 min", "parts": 25 }' }),
  silence: section('silence', silenceSpec, 'Findings silenced for this job, each with a reason.', {
    example: '[{ "code": "chip-load-low", "tool": 3, "reason": "proven" }]',
  }),
};

const recordFile = mapped(text(), (value, node, context) => {
  const verdict = insideFolder(value, recordEndings);
  if ('path' in verdict) return verdict.path;
  context.report('setup-path', node, `${context.path}: ${verdict.why}`);
  return undefined;
});

const cribRows = {
  units: unitsField,
  machines: section('machines', byName(cribMachineSpec), 'Machines of the shop by name.', {
    example: '{ "mill-3": { "kind": "mill", "standing": { "1": "em-12-3fl" } } }',
  }),
  tools: section('tools', byName(cribToolSpec), 'Tools that programs share, by id.', {
    example:
      '{ "em-12-3fl": { "kind": "end-mill", "diameter": "1/2 in", "teeth": 3, "called": ["1/2 3FL EM"] } }',
  }),
  materials: section('materials', byName(materialSpec), 'Materials of the shop, by name.', {
    example: '{ "north castings": { "same_as": "GJL-250" } }',
  }),
  record: field('record', recordFile, "The shop's record of what worked: a file beside or below the crib.", {
    example: '"proven.jsonl"',
  }),
};

/** The table of a setup sheet, all sections. */
export const sheetSpec: Spec<Read<typeof sheetRows>> = object(sheetRows);
/** The table of a crib, all sections. */
export const cribSpec: Spec<Read<typeof cribRows>> = object(cribRows);

/** What a setup sheet says, each value with its place. `file` is the name it was given. */
export type SetupSheet = Read<typeof sheetRows> & { file: string };
/** What a crib says. */
export type Crib = Read<typeof cribRows> & { file: string };
export type { Coolant, Known };

/** Reads a setup sheet: any text; what can be understood counts, the rest becomes problems. Never throws. */
export function readSetupSheet(text: string, file: string): { sheet: SetupSheet; problems: SheetProblem[] } {
  const { value, problems } = readJsonText(text, sheetSpec, 'setup', file);
  return { sheet: { ...value, file }, problems };
}

/** Reads a crib: any text; what can be understood counts, the rest becomes problems. Never throws. */
export function readCrib(text: string, file: string): { crib: Crib; problems: SheetProblem[] } {
  const { value, problems } = readJsonText(text, cribSpec, 'crib', file);
  return { crib: { ...value, file }, problems };
}

/** Units of bare numbers, if the file names them. */
export function unitsOf(file: SetupSheet | Crib): SheetUnits | undefined {
  return file.units?.value;
}
