import type { Asked, Earlier, Left, NotLeft } from '../review/cuts/earlier.ts';
import { layOf, leftBy, otherKind } from '../review/cuts/left-by.ts';
import type { Program } from '../review/program.ts';
import { type JobFiles, sheetName } from './job-files.ts';
import type { JobInput, OpenedJob } from './job-input.ts';

/** Programs before programs are followed this far back. */
export const MOST_BEFORE = 5;

/** Path of a program that a sheet names, from the folder of the program that was opened. */
export function besideOf(program: string, name: string): string {
  const slash = program.lastIndexOf('/');
  return slash < 0 ? name : `${program.slice(0, slash + 1)}${name}`;
}

/** Why the program before cannot be had, in words that go on 'the stock is what X leaves, and'. */
export const unreadWords = {
  program: (why?: string) => `that program cannot be read here${why ? `: ${why}` : ''}`,
  sheet: (name: string) => `it has no setup sheet (${sheetName(name)})`,
  circle: 'the programs start from each other',
};

/** The programs that a job's stock starts from, read when they are asked for. */
export function earlierOf(input: JobInput, open: (input: JobInput) => OpenedJob): Earlier {
  const chain = input.chain ?? [''];
  const here = chain[chain.length - 1];
  const read = new Map<string, Program | string>();
  const program = (name: string): Program | string => {
    const path = besideOf(here, name);
    let found = read.get(path);
    if (found === undefined) {
      found = readBefore(input, path, [...chain, path], open);
      read.set(path, found);
    }
    return found;
  };
  const lefts = new Map<string, Left>();
  return {
    wrong(asked) {
      const cut = lefts.get(keyOf(asked));
      if (cut) return 'why' in cut && cut.at ? cut : undefined;
      const found = program(asked.stock.from.value);
      if (typeof found === 'string') return unreadLeft(asked, found);
      const lay = layOf(asked);
      return otherKind(asked, found) ?? ('why' in lay && lay.at ? lay : undefined);
    },
    left(asked) {
      const found = program(asked.stock.from.value);
      const left = typeof found === 'string' ? unreadLeft(asked, found) : leftBy(found, asked);
      lefts.set(keyOf(asked), left);
      return left;
    },
  };
}

/** Two stocks of a sheet that say the same are one; zero sits where the work offset says. */
export function keyOf({ stock, kind }: Asked): string {
  return JSON.stringify([kind, stock.from.value, stock.turn?.value, stock.face_mm?.value]);
}

/** The program before cannot be read. */
export function unreadLeft({ stock }: Asked, why: string): NotLeft {
  return { why: `the stock is what ${stock.from.value} leaves, and ${why}`, at: 'from' };
}

function readBefore(
  input: JobInput,
  path: string,
  chain: readonly string[],
  open: (input: JobInput) => OpenedJob,
): Program | string {
  if (chain.indexOf(path) < chain.length - 1 || chain.length > MOST_BEFORE + 1) return unreadWords.circle;
  const bytes = input.readBeside?.(path);
  if (!bytes) return unreadWords.program();
  const sheet = input.readBeside?.(sheetName(path));
  if (!sheet) return unreadWords.sheet(path.slice(path.lastIndexOf('/') + 1));
  const files: JobFiles = {
    ...input.files,
    sheet: { path: sheetName(path), text: new TextDecoder().decode(sheet) },
  };
  const { readBeside, resolveFile } = input;
  return open({ bytes, name: path, files, resolveFile, readBeside, chain }).review.program;
}
