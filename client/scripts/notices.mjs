import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** The licence texts of all packages that went into the given builds (esbuild metafiles), for the notices file beside them. */
export function notices(metafiles) {
  const inputs = metafiles.flatMap(metafile => Object.keys(metafile.inputs));
  const folders = inputs
    .map(file => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1])
    .filter(Boolean);
  const parts = [...new Set(folders)].sort().map(folder => {
    const { name, version, license } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
    const file = readdirSync(folder).find(entry => /^licen[sc]e/i.test(entry));
    if (!file && !license) throw new Error(`${name} says no licence`);
    const text =
      file && existsSync(path.join(folder, file)) ? readFileSync(path.join(folder, file), 'utf8') : license;
    return `${name} ${version}\n\n${text.trim()}\n`;
  });
  return `Parts of these files come from the following packages.\n\n${parts.join(`\n${'-'.repeat(72)}\n\n`)}`;
}
