// Writes what the tables of the client say into the manifest and the manual.
//   npm run generate            writes
//   npm run generate -- --check fails when something is stale, and says the cure
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { generatedSetupFiles } from '../../server/src/setup/generated.ts';
import { contributes } from '../src/tables/manifest.ts';
import { manualPage } from '../src/tables/manual.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The generated files with the text that they should have. */
export function wanted(): Map<string, string> {
  const manifest = path.join(root, 'package.json');
  const content = JSON.parse(readFileSync(manifest, 'utf8')) as Record<string, unknown>;
  return new Map([
    [manifest, `${JSON.stringify({ ...content, contributes: contributes() }, null, 2)}\n`],
    [path.join(root, 'server/manual/commands-and-settings.md'), manualPage()],
    ...generatedSetupFiles().map(({ path: file, text }): [string, string] => [path.join(root, file), text]),
  ]);
}

/** The files that are not as the tables say; `package.json` counts by its content, not by its layout. */
export function stale(): string[] {
  const same = (file: string, text: string) => {
    if (!existsSync(file)) return false;
    const now = readFileSync(file, 'utf8');
    return file.endsWith('.json')
      ? JSON.stringify(JSON.parse(now)) === JSON.stringify(JSON.parse(text))
      : now === text;
  };
  return [...wanted()].filter(([file, text]) => !same(file, text)).map(([file]) => path.relative(root, file));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const old = stale();
  if (process.argv.includes('--check')) {
    for (const file of old) console.error(`${file} is stale: run npm run generate`);
    process.exitCode = old.length ? 1 : 0;
  } else {
    for (const [file, text] of wanted()) {
      mkdirSync(path.dirname(file), { recursive: true });
      if (old.includes(path.relative(root, file))) writeFileSync(file, text);
    }
    console.log(old.length ? `written: ${old.join(', ')}` : 'nothing was stale');
  }
}
