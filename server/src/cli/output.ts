import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { visible } from '../report/visible.ts';

export { visible };

/** Writes results to standard output; a reader that went away is not an error. */
export function writeResult(text: string): void {
  writeAll(1, text);
}

/** Says something that is not a result. */
export function say(text: string): void {
  writeAll(2, `${visible(text)}\n`);
}

function writeAll(descriptor: number, text: string): void {
  const bytes = Buffer.from(text, 'utf8');
  let at = 0;
  while (at < bytes.length) {
    try {
      at += writeSync(descriptor, bytes, at);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'EAGAIN') {
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
        continue;
      }
      if (code === 'EPIPE') return;
      throw error;
    }
  }
}

/** Writes a file whole or not at all: beside it first, then in its place. */
export function writeFileWhole(path: string, text: string): void {
  const beside = `${path}.${process.pid}.part`;
  const descriptor = openSync(beside, 'wx');
  try {
    writeSync(descriptor, text);
    fsyncSync(descriptor);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  } finally {
    closeSync(descriptor);
  }
  renameSync(beside, path);
}
