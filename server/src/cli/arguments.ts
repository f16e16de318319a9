import { parseArgs } from 'node:util';

/** One option of the command line; the help and the parser both come from this table. */
export interface OptionRow {
  name: string;
  type: 'string' | 'boolean';
  /** Placeholder of the value in the help. */
  value?: string;
  values?: readonly string[];
  means: string;
}

export const DIALECTS = ['ngc', 'iso6983', 'lathe-a', 'lathe-b', 'lathe-c'] as const;

/** Options that every command takes. */
export const COMMON_OPTIONS: readonly OptionRow[] = [
  {
    name: 'setup',
    type: 'string',
    value: 'FILE',
    means: 'setup sheet to use instead of NAME.setup.json beside the program',
  },
  {
    name: 'crib',
    type: 'string',
    value: 'FILE',
    means: 'tool crib to use instead of the nearest crib.json upwards',
  },
  {
    name: 'units',
    type: 'string',
    value: 'program|inch|mm',
    values: ['program', 'inch', 'mm'],
    means: 'how numbers are shown',
  },
  {
    name: 'dialect',
    type: 'string',
    value: 'D',
    values: DIALECTS,
    means: `how codes are read: ${DIALECTS.join(', ')}`,
  },
  {
    name: 'kind',
    type: 'string',
    value: 'mill|lathe',
    values: ['mill', 'lathe'],
    means: 'the kind of machine',
  },
  {
    name: 'least-increment',
    type: 'string',
    value: 'N|none',
    means: 'what a number without a point counts, in program units; none: calculator type',
  },
  { name: 'no-color', type: 'boolean', means: 'plain text' },
  { name: 'help', type: 'boolean', means: 'this help' },
];

export class UsageError extends Error {}

export interface Arguments {
  /** As they were written, for a thread that reads them again. */
  argv: readonly string[];
  positionals: string[];
  text(name: string): string | undefined;
  flag(name: string): boolean;
}

/** Reads a command's arguments; throws UsageError in plain words. */
export function readArguments(argv: readonly string[], options: readonly OptionRow[]): Arguments {
  const all = [...COMMON_OPTIONS, ...options];
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({
      args: [...argv],
      options: Object.fromEntries(all.map(row => [row.name, { type: row.type }])),
      allowPositionals: true,
      strict: true,
    });
  } catch (error) {
    throw new UsageError((error as Error).message.split('. To specify')[0]);
  }
  for (const row of all) {
    const value = parsed.values[row.name];
    if (row.values && typeof value === 'string' && !row.values.includes(value))
      throw new UsageError(`--${row.name} takes one of ${row.values.join(', ')}, not '${value}'`);
  }
  return {
    argv,
    positionals: parsed.positionals as string[],
    text: name => parsed.values[name] as string | undefined,
    flag: name => parsed.values[name] === true,
  };
}

/** A whole number in a range, or UsageError. */
export function wholeNumber(text: string, name: string, least: number, most: number): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < least || value > most)
    throw new UsageError(`--${name} takes a whole number from ${least} to ${most}, not '${text}'`);
  return value;
}
