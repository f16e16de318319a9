import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import type { JobHost } from '../job/job-files.ts';

/** Files of this computer, for the command line. */
export const nodeHost: JobHost = {
  async read(path) {
    try {
      return await readFile(path);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'EISDIR' || code === 'EACCES') return undefined;
      throw error;
    }
  },
  parent(path) {
    const folder = dirname(resolve(path));
    return folder === resolve(path) ? undefined : folder;
  },
  join,
  name: at => basename(at),
  async isTop(folder) {
    return folder === homedir() || existsSync(join(folder, '.git')) || dirname(folder) === folder;
  },
};
