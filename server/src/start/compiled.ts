import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import Module from 'node:module';
import path from 'node:path';
import { Script } from 'node:vm';

/** After the start, milliseconds: what the first hints need has been compiled by then. */
const KEEP_AFTER_MS = 5000;
const ENDING = '.compiled';

/** How what was compiled is kept. */
export interface Keeping {
  /** Whether this run compiles what later ones need. */
  keep: boolean;
  /** Says nothing of a folder that cannot be read or written. */
  quiet: boolean;
}

/**
 * Runs a file of ours as `require` would, with what the engine compiled of it at an earlier start: compiling costs more
 * than all else that a start does. `folder` is for this alone; `stamp` changes with the file's content. The first
 * start, and one on another version of the engine, keeps what it compiled for the next.
 */
export function runCompiled(
  file: string,
  folder: string,
  stamp: string,
  { keep, quiet }: Keeping = { keep: true, quiet: false },
): void {
  const say = quiet ? () => {} : console.error;
  const kept = path.join(folder, `${stamp}-${process.versions.v8}${ENDING}`);
  const cachedData = readKept(kept, say);
  const script = new Script(Module.wrap(readFileSync(file, 'latin1')), {
    filename: file,
    ...(cachedData ? { cachedData } : {}),
  });
  script.runInThisContext()({}, require, { exports: {} }, file, path.dirname(file));
  if (!keep || (cachedData && !script.cachedDataRejected)) return;
  let done = false;
  const put = () => {
    if (done) return;
    done = true;
    keepCompiled(kept, script.createCachedData(), say);
  };
  setTimeout(put, KEEP_AFTER_MS).unref();
  process.once('exit', put);
}

type Say = (message: string) => void;

/** The data with a sum of it behind, so that a file that a crash left with holes is not believed. */
function readKept(file: string, say: Say): Buffer | undefined {
  try {
    const bytes = readFileSync(file);
    const data = bytes.subarray(0, Math.max(0, bytes.length - 4));
    return bytes.length > 4 && sumOf(data) === bytes.readUInt32LE(data.length) ? data : undefined;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    say(`tapeproof: ${file} could not be read, the start takes longer: ${error}`);
    return undefined;
  }
}

/** Keeps the data, whole or not at all, in the place of what earlier versions kept. */
function keepCompiled(file: string, data: Buffer, say: Say): void {
  const folder = path.dirname(file);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    for (const name of readdirSync(folder))
      if (name.endsWith(ENDING)) rmSync(path.join(folder, name), { force: true });
    const sum = Buffer.alloc(4);
    sum.writeUInt32LE(sumOf(data));
    const beside = `${file}-${process.pid}`;
    writeFileSync(beside, Buffer.concat([data, sum]), { flush: true });
    renameSync(beside, file);
  } catch (error) {
    say(`tapeproof: ${file} could not be written, the next start takes longer: ${error}`);
  }
}

/** How far apart the bytes are that the sum looks at: many in each page of a disk, for that is what a crash loses. */
const SUM_STEP = 67;

/** A sum over bytes all along the data. */
function sumOf(data: Uint8Array): number {
  let sum = data.length;
  for (let at = 0; at < data.length; at += SUM_STEP) sum = Math.imul(sum ^ data[at], 0x01000193);
  return sum >>> 0;
}
