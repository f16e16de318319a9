import { lstatSync, openSync, readdirSync, readSync, closeSync, statSync } from 'node:fs';
import { extname, join } from 'node:path';
import { looksLikeProgram } from '../rs274/index.ts';
import { UsageError } from './arguments.ts';

/** File endings that only CNC programs use. */
export const ENDINGS = new Set(['.nc', '.ngc', '.tap', '.cnc', '.eia']);
const DEEPEST = 40;
const PEEK_BYTES = 8192;

/** Program files under the given paths, sorted; folders are searched for the endings, with `all` by content too. */
export function programFiles(paths: readonly string[], all: boolean): string[] {
  const found: string[] = [];
  for (const path of paths) {
    if (path === '-') {
      found.push(path);
      continue;
    }
    let folder: boolean;
    try {
      folder = statSync(path).isDirectory();
    } catch (error) {
      throw new UsageError(`cannot read ${path}: ${(error as NodeJS.ErrnoException).code === 'ENOENT' ? 'there is no such file' : (error as Error).message}`);
    }
    if (folder) search(path, all, 0, found);
    else found.push(path);
  }
  return found;
}

function search(folder: string, all: boolean, depth: number, found: string[]): void {
  if (depth > DEEPEST) return;
  for (const name of readdirSync(folder).sort()) {
    if (name === 'node_modules' || name.startsWith('.')) continue;
    const path = join(folder, name);
    const facts = lstatSync(path);
    if (facts.isDirectory()) search(path, all, depth + 1, found);
    else if (facts.isFile() && (ENDINGS.has(extname(name).toLowerCase()) || (all && peek(path)))) found.push(path);
  }
}

function peek(path: string): boolean {
  const descriptor = openSync(path, 'r');
  try {
    const bytes = Buffer.alloc(PEEK_BYTES);
    return looksLikeProgram(bytes.subarray(0, readSync(descriptor, bytes, 0, PEEK_BYTES, 0)));
  } finally {
    closeSync(descriptor);
  }
}
