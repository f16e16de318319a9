// Writes everything that is made from tables: manual pages, manifest, schemas.
//   npm run generate            writes
//   npm run generate -- --check fails when something is stale, and says the cure
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { wanted as clientFiles } from '../../client/scripts/generate.ts';
import { commandsManual } from '../src/cli/manual.ts';
import { findingsManual, quantitiesManual } from '../src/report/manual.ts';
import { codesManual } from '../src/rs274/codes/manual.ts';
import { API_PAGE, cuttingApiPage } from './cutting-api.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Every generated file by its whole path, with the text that it should have. */
export function generatedFiles(): Map<string, string> {
  const manual = (name: string) => path.join(root, 'server/manual', name);
  return new Map([
    ...clientFiles(),
    [manual('findings.md'), findingsManual()],
    [manual('quantities.md'), quantitiesManual()],
    [manual('codes.md'), codesManual()],
    [manual('command-line.md'), commandsManual()],
    [API_PAGE, cuttingApiPage()],
  ]);
}

/** The files that are not as the tables say; JSON counts by its content, not by its layout. */
export function staleFiles(): [file: string, text: string][] {
  return [...generatedFiles()].filter(([file, text]) => {
    if (!existsSync(file)) return true;
    const now = readFileSync(file, 'utf8');
    if (!file.endsWith('.json')) return now !== text;
    return JSON.stringify(JSON.parse(now)) !== JSON.stringify(JSON.parse(text));
  });
}

/** Writes what is stale and returns the names. */
export function writeStale(): string[] {
  return staleFiles().map(([file, text]) => {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, text);
    return path.relative(root, file);
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  if (process.argv.includes('--check')) {
    const old = staleFiles();
    for (const [file] of old) console.error(`${path.relative(root, file)} is stale: run npm run generate`);
    process.exitCode = old.length > 0 ? 1 : 0;
  } else {
    const written = writeStale();
    console.log(written.length > 0 ? `written: ${written.join(', ')}` : 'nothing was stale');
  }
}
