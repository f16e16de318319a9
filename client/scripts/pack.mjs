#!/usr/bin/env node
// Packs what is handed out: the extension (.vsix) and the command line with the cutting library (npm tarball).
//   node client/scripts/pack.mjs [FOLDER]      default: packed
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
/** The packed extension may not be larger than this. */
export const mostBytes = 1_500_000;

/** Packs both into a folder and returns their paths; builds before. */
export function pack(folder) {
  const run = (command, args) =>
    execFileSync(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'], encoding: 'utf8' });
  const require = createRequire(import.meta.url);
  mkdirSync(folder, { recursive: true });
  run(process.execPath, ['esbuild.mjs']);
  rmSync(path.join(root, 'server/dist/types'), { recursive: true, force: true });
  run(process.execPath, [require.resolve('typescript/bin/tsc'), '-p', 'server/tsconfig.types.json']);
  const vsix = path.join(folder, 'tapeproof.vsix');
  const vsce = path.join(path.dirname(require.resolve('@vscode/vsce/package.json')), 'vsce');
  run(process.execPath, [
    vsce,
    'package',
    '--no-dependencies',
    '--no-rewrite-relative-links',
    '--allow-missing-repository',
    '--out',
    vsix,
  ]);
  const packed = run('npm', [
    'pack',
    '--workspace',
    'server',
    '--json',
    '--ignore-scripts',
    '--pack-destination',
    folder,
  ]);
  return { vsix, tarball: path.join(folder, JSON.parse(packed)[0].filename) };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const file of Object.values(pack(path.resolve(process.argv[2] ?? path.join(root, 'packed'))))) {
    console.log(`${path.relative(root, file)}: ${statSync(file).size} bytes`);
  }
}
