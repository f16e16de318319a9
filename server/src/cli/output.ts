import {
  closeSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { visible } from '../report/visible.ts';
import { UsageError } from './arguments.ts';

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

/**
 * Writes a file whole or not at all: beside it first, then in its place. A link stays one, the mode stays what it was.
 * Throws UsageError where that cannot be.
 */
export function writeFileWhole(path: string, text: string): void {
  orSay(path, () => {
    const there = statSync(path, { throwIfNoEntry: false });
    const place = there ? realpathSync(path) : path;
    renameSync(writeBeside(place, text, there?.mode), place);
  });
}

/** Writes a file that is not there yet, whole or not at all; UsageError when there is one or it cannot be written. */
export function writeNewFile(path: string, text: string): void {
  orSay(path, () => {
    const beside = writeBeside(path, text);
    try {
      linkSync(beside, path);
    } finally {
      rmSync(beside, { force: true });
    }
  });
}

const WHY: Record<string, string> = {
  EEXIST: 'it is there already',
  ENOENT: 'there is no such folder',
  EACCES: 'no permission',
  EROFS: 'the folder is read-only',
  ENOSPC: 'the disk is full',
  EISDIR: 'it is a folder',
};

function orSay(path: string, write: () => void): void {
  try {
    write();
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new UsageError(`cannot write ${path}: ${WHY[code] ?? message}`);
  }
}

function writeBeside(path: string, text: string, mode?: number): string {
  const beside = `${path}.${process.pid}.part`;
  const descriptor = openSync(beside, 'wx', mode);
  try {
    const bytes = Buffer.from(text, 'utf8');
    for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at);
    fsyncSync(descriptor);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  } finally {
    closeSync(descriptor);
  }
  return beside;
}
