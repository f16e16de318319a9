import { closeSync, lstatSync, openSync, readdirSync, readSync, statSync } from 'node:fs';
import { extname, join } from 'node:path';
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
      throw new UsageError(
        `cannot read ${path}: ${(error as NodeJS.ErrnoException).code === 'ENOENT' ? 'there is no such file' : (error as Error).message}`,
      );
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
    else if (facts.isFile() && (ENDINGS.has(extname(name).toLowerCase()) || (all && peek(path))))
      found.push(path);
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

const BLOCK_LIKE = /^\s*(?:%|\(|;|\/?\s*[NOGMTSFXYZUWIJKR]\s*[-+.]?\d|:\d)/i;

/** By content: at least 60 % of the lines that are not empty look like blocks, with at least two G or M words. */
export function looksLikeProgram(bytes: Uint8Array): boolean {
  const lines = Buffer.from(bytes)
    .toString('latin1')
    .split(/\r\n|\r|\n/)
    .filter(line => line.trim() !== '');
  const blocks = lines.filter(line => BLOCK_LIKE.test(line)).length;
  const codes = lines.join('\n').match(/[GM]\s*\d{1,3}/gi)?.length ?? 0;
  return lines.length > 0 && blocks >= 0.6 * lines.length && codes >= 2;
}
