import { createHash } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, relative } from 'node:path';
import type { JobChoice } from '../job/job-files.ts';
import { findJobFiles } from '../job/job-files.ts';
import type { OpenedJob } from '../job/job-input.ts';
import { openJob } from '../job/open-job.ts';
import type { FileFacts } from '../report/json.ts';
import { once } from '../review/once.ts';
import { type Arguments, UsageError } from './arguments.ts';
import { MOST_BYTES, readEarly } from './early-read.ts';
import { nodeHost } from './node-host.ts';
import { VERSION } from './version.ts';

const STDIN = 0;

export interface Loaded extends OpenedJob {
  file: FileFacts;
}

/** Bytes of a program; `-` is standard input. Throws UsageError when it cannot be read. */
export function readProgramBytes(path: string): Uint8Array {
  try {
    if (path !== '-') {
      const facts = statSync(path);
      if (facts.isDirectory()) throw new UsageError(`${path} is a folder; name a program`);
      if (facts.size > MOST_BYTES)
        throw new UsageError(`${path} is larger than ${MOST_BYTES} bytes and is not read`);
    }
    return readFileSync(path === '-' ? STDIN : path);
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`cannot read ${path}: ${reason(error)}`);
  }
}

function reason(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const words: Record<string, string> = {
    ENOENT: 'there is no such file',
    EACCES: 'no permission',
    EISDIR: 'it is a folder',
  };
  return (code && words[code]) ?? message;
}

/** Reads a program with its sheet and crib and reviews it. */
export async function load(path: string, args: Arguments): Promise<Loaded> {
  const bytes = (await readEarly(path)) ?? readProgramBytes(path);
  const choice: JobChoice = {};
  const sheet = args.text('setup');
  const crib = args.text('crib');
  if (sheet !== undefined) choice.sheet = mustExist(sheet);
  if (crib !== undefined) choice.crib = mustExist(crib);
  const files = await findJobFiles(
    nodeHost,
    path === '-' ? join(process.cwd(), 'standard-input') : path,
    choice,
  );
  const job = openJob({
    bytes,
    name: path,
    files,
    dialect: args.text('dialect'),
    kind: args.text('kind'),
    least_increment: leastIncrement(args.text('least-increment')),
    shown: args.text('units') as 'program' | 'inch' | 'mm' | undefined,
    cut: true,
    resolveFile: name => neighbour(path, name),
    readBeside: name => inFolder(path, name),
  });
  // Most outputs do not show it.
  const sha256 = once(() => createHash('sha256').update(bytes).digest('hex'));
  const file = {
    path,
    get sha256() {
      return sha256();
    },
    bytes: bytes.length,
    version: VERSION,
  };
  return { ...job, file };
}

function mustExist(path: string): string {
  try {
    if (statSync(path).isFile()) return path;
  } catch (error) {
    throw new UsageError(`cannot read ${path}: ${reason(error)}`);
  }
  throw new UsageError(`${path} is not a file`);
}

function leastIncrement(text: string | undefined): number | 'none' | undefined {
  if (text === undefined || text === 'none') return text as 'none' | undefined;
  const value = Number(text);
  if (!(value > 0 && value < 1))
    throw new UsageError(`--least-increment takes a number such as 0.001, or none, not '${text}'`);
  return value;
}

/** A file that the sheet names, in the program's folder or below it; a link that leads out of it is not followed. */
function inFolder(path: string, name: string): Uint8Array | undefined {
  if (path === '-') return undefined;
  try {
    const folder = realpathSync(dirname(path));
    const full = realpathSync(join(folder, name));
    const way = relative(folder, full);
    if (way.startsWith('..') || isAbsolute(way)) return undefined;
    const facts = statSync(full);
    return facts.isFile() && facts.size <= MOST_BYTES ? readFileSync(full) : undefined;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code) return undefined;
    throw error;
  }
}

/** A called file from the program's own folder; names with a folder in them are not followed. */
function neighbour(path: string, name: string): Uint8Array | undefined {
  if (path === '-' || name !== basename(name)) return undefined;
  try {
    const full = join(dirname(path), name);
    const facts = statSync(full);
    return facts.isFile() && facts.size <= MOST_BYTES ? readFileSync(full) : undefined;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code) return undefined;
    throw error;
  }
}
