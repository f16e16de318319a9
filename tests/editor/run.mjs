#!/usr/bin/env node
// Runs the editor tests in a real extension host and ends with their exit code.
//   node tests/editor/run.mjs [node|web]
// Prepares an editor first when there is none. EDITOR_FAIL=1 adds a case that fails, to see that failing is seen;
// EDITOR_GREP=TEXT runs only the cases whose title holds the text, and says so.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { runTests } from '@vscode/test-electron';
import { build } from 'esbuild';
import { prepared } from './prepare.mjs';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '../..');
const kind = process.argv[2] ?? 'node';
if (!['node', 'web'].includes(kind)) throw new Error(`unknown host ${kind}: node or web`);
const suite = path.join(root, `dist/tests/editor.${kind}.js`);
const fixtures = ['bracket', 'valve', 'bushing'];

if (!prepared()) execFileSync(process.execPath, [path.join(here, 'prepare.mjs')], { stdio: 'inherit' });
const editor = prepared();
await build({
  entryPoints: { [`editor.${kind}`]: path.join(here, `suite/${kind}.ts`) },
  outdir: path.join(root, 'dist/tests'),
  bundle: true,
  format: 'cjs',
  external: ['vscode'],
  logLevel: 'warning',
  // In the Node host mocha stays outside: it loads its parts by name.
  ...(kind === 'node' ? { platform: 'node', external: ['vscode', 'mocha'] } : { platform: 'browser' }),
});

// A copy of the fixtures: cases change files, and nothing of that may reach the repository.
const scratch = mkdtempSync(path.join(tmpdir(), 'tapeproof-editor-'));
const workspace = path.join(scratch, 'shop');
for (const name of fixtures)
  cpSync(path.join(root, 'fixtures', name), path.join(workspace, name), { recursive: true });
mkdirSync(path.join(scratch, 'user/User'), { recursive: true });
const settings = {
  'editor.fontSize': 14,
  'editor.minimap.enabled': false,
  'tapeproofTests.fail': !!process.env.EDITOR_FAIL,
  'tapeproofTests.grep': process.env.EDITOR_GREP ?? '',
};
writeFileSync(path.join(scratch, 'user/User/settings.json'), JSON.stringify(settings));

process.env.EDITOR_HOST_SHOTS ??= path.join(here, 'shots');
console.log(`editor tests: ${kind} host, ${editor.kind} editor`);
try {
  await runTests({
    vscodeExecutablePath: editor.executable,
    extensionDevelopmentPath: root,
    extensionTestsPath: suite,
    launchArgs: [
      workspace,
      `--user-data-dir=${path.join(scratch, 'user')}`,
      '--disable-extensions',
      ...(kind === 'web' ? ['--extensionDevelopmentKind=web'] : []),
    ],
  });
} catch (error) {
  console.error(error.message ?? error);
  process.exitCode = 1;
} finally {
  rmSync(scratch, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
}
