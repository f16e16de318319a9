import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../server');

/** Digest of the sources of a kernel, folder after folder: what `npm run kernel` notes beside the bytes. */
export function kernelDigest(folders: readonly string[]): string {
  const hash = createHash('sha256');
  for (const folder of folders) {
    for (const file of readdirSync(path.join(root, folder)).sort())
      if (file.endsWith('.ts')) hash.update(readFileSync(path.join(root, folder, file)));
  }
  return hash.digest('hex');
}
