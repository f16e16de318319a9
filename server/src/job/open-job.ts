import type { Knowledge } from '../review/knowledge.ts';
import { makeReview, type Review } from '../review/review.ts';
import { sumWhileReading } from '../review/witness.ts';
import {
  DIALECTS,
  MACHINE_KINDS,
  ProgramText,
  type Reading,
  type ReadOptions,
  readProgram,
} from '../rs274/index.ts';
import { type MachineKnown, machineOf, toolsOf } from '../setup/index.ts';
import { earlierOf } from './earlier-programs.ts';
import type { JobInput, OpenedJob } from './job-input.ts';
import { earlierFindings, sheetFindings } from './sheet-findings.ts';
import { readSheets, type SheetReading } from './sheet-reading.ts';

/** Reads and reviews a program with the files beside it. */
export function openJob(input: JobInput): OpenedJob {
  const sheets = readSheets(input.files);
  const text = ProgramText.fromBytes(input.bytes);
  const { resolveFile } = input;
  const reading = readProgram(text, {
    ...readOptions(sheets, input),
    ...(resolveFile
      ? {
          resolveFile: (name: string) => {
            const bytes = resolveFile(name);
            return bytes && ProgramText.fromBytes(bytes);
          },
        }
      : {}),
  });
  return {
    reading,
    review: reviewOf(reading, sheets, {
      ...input,
      cuts: input.cut ? 'now' : undefined,
      earlier: earlierOf(input, openJob),
    }),
    sheets,
  };
}

/** Reviews a program that was read. */
export function reviewOf(
  reading: Reading,
  sheets: SheetReading,
  input: Pick<JobInput, 'shown' | 'severities'> & Pick<Knowledge, 'cuts' | 'earlier'>,
): Review {
  return makeReview(
    reading,
    {
      sheet: sheets.sheet,
      cribs: sheets.cribs,
      shown: input.shown,
      cuts: input.cuts,
      earlier: input.earlier,
    },
    { severities: input.severities },
    program => [...sheetFindings(sheets), ...earlierFindings(sheets, program.kind, input.earlier)],
  );
}

/** How the program is to be read, by what the person, the sheet or the machine says. */
export function readOptions(
  sheets: SheetReading,
  input: Pick<JobInput, 'dialect' | 'kind' | 'least_increment'>,
): ReadOptions {
  const { machine } = machineOf(sheets.sheet, sheets.cribs);
  const dialect = DIALECTS.find(name => name === (input.dialect ?? machine?.dialect?.value));
  const kind = MACHINE_KINDS.find(name => name === (input.kind ?? machine?.kind?.value));
  const least = input.least_increment ?? machine?.least_increment_mm?.value;
  return {
    ...(dialect ? { dialect } : {}),
    ...(kind ? { kind } : {}),
    ...(least === undefined ? {} : { least_increment_mm: least === 'none' ? null : least }),
    ...(machine?.compensation ? { compensation: machine.compensation.value } : {}),
    ...(sheets.sheet?.units ? { units: sheets.sheet.units.value } : {}),
    witness: sumWhileReading,
    toolDiameter_mm: (radius_offset, tool) => offsetDiameter(sheets, machine, radius_offset, tool),
    toolNose: noses(sheets),
  };
}

/** Diameter of the tool that a radius offset belongs to: the one whose sheet entry names it, else the tool of that number. */
function offsetDiameter(
  sheets: SheetReading,
  machine: MachineKnown['machine'],
  radius_offset: number,
  tool: number,
): number {
  const number = Number.isNaN(radius_offset) ? tool : radius_offset;
  const tools = sheets.sheet?.tools;
  for (const entry of tools?.values() ?? [])
    if (entry.radius_offset?.value === number && entry.diameter_mm) return entry.diameter_mm.value;
  const own = tools?.get(number);
  const id = own?.crib?.value ?? machine?.standing?.get(number)?.id;
  const shared =
    id === undefined ? undefined : sheets.cribs.find(crib => crib.tools?.has(id))?.tools?.get(id);
  return own?.diameter_mm?.value ?? shared?.diameter_mm?.value ?? Number.NaN;
}

/** Nose of the tool whose sheet entry names the radius offset, else of the tool itself; each tool is looked up once. */
function noses({ sheet, cribs }: SheetReading): NonNullable<ReadOptions['toolNose']> {
  const found = new Map<number, { radius_mm: number; tip: number }>();
  return (radius_offset, tool) => {
    let number = tool;
    for (const [own, entry] of sheet?.tools ?? [])
      if (entry.radius_offset?.value === radius_offset) number = own;
    let nose = found.get(number);
    if (nose === undefined) {
      const known = toolsOf({ tools: [number], sheet, cribs }).get(number);
      nose = {
        radius_mm: known?.nose_radius_mm?.value ?? Number.NaN,
        tip: known?.tip_direction?.value ?? Number.NaN,
      };
      found.set(number, nose);
    }
    return nose;
  };
}
