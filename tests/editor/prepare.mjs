#!/usr/bin/env node
// Makes sure that there is an editor for the editor tests, and says what it does. A second run is quick and changes nothing.
//   node tests/editor/prepare.mjs
// The first of these that can be had: the editor that EDITOR_HOST names; one prepared before; the ordinary download of
// @vscode/test-electron; as root on Debian the stand-in of tests/editor/host. Where none can be had it fails and says what to do.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { downloadAndUnzipVSCode } from '@vscode/test-electron';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '../..');
const record = path.join(root, '.vscode-test/editor.json');
const version = '1.100.3';
const standIn = path.join(here, 'host/editor-host.mjs');

/** The prepared editor: `{ kind: 'named' | 'downloaded' | 'stand-in', executable }`, or undefined. */
export function prepared() {
  if (process.env.EDITOR_HOST) return { kind: 'named', executable: path.resolve(process.env.EDITOR_HOST) };
  if (!existsSync(record)) return undefined;
  const editor = JSON.parse(readFileSync(record, 'utf8'));
  return existsSync(editor.executable) && (editor.kind !== 'stand-in' || standInIsWhole())
    ? editor
    : undefined;
}

const standInIsWhole = () =>
  existsSync(path.join(here, 'host/host/node_modules/.editor-host')) &&
  existsSync(process.env.EDITOR_HOST_CHROMIUM ?? '/usr/bin/chromium');

function keep(kind, executable) {
  mkdirSync(path.dirname(record), { recursive: true });
  writeFileSync(record, `${JSON.stringify({ kind, executable }, null, 2)}\n`);
  return { kind, executable };
}

/** An editor window needs a screen: on Linux a running display. */
const hasScreen = () =>
  process.platform !== 'linux' || !!(process.env.DISPLAY || process.env.WAYLAND_DISPLAY);

async function download() {
  if (!hasScreen())
    return 'this Linux has no display (DISPLAY is not set), so a desktop editor would not start';
  console.log(`editor: downloading VS Code ${version}`);
  try {
    const executable = await downloadAndUnzipVSCode({
      version,
      cachePath: path.dirname(record),
      timeout: 20_000,
    });
    const tried = spawnSync(executable, [
      '--version',
      '--no-sandbox',
      '--user-data-dir',
      path.join(path.dirname(record), 'user'),
    ]);
    if (tried.status !== 0) return `the downloaded editor does not start: ${tried.error ?? tried.stderr}`;
    return keep('downloaded', executable);
  } catch (error) {
    return `the download failed: ${error.message ?? error}`;
  }
}

function installStandIn() {
  if (process.platform !== 'linux' || !existsSync('/etc/debian_version')) return 'the stand-in needs Debian';
  const chromium = existsSync(process.env.EDITOR_HOST_CHROMIUM ?? '/usr/bin/chromium');
  if (process.getuid?.() !== 0 && !chromium)
    return 'the stand-in needs Chromium, and only root can install it';
  console.log('editor: installing the stand-in (Chromium by apt-get, the editor by npm; about a minute)');
  try {
    execFileSync(process.execPath, [path.join(here, 'host/setup.mjs')], {
      stdio: ['ignore', 'inherit', 'inherit'],
    });
    return keep('stand-in', standIn);
  } catch (error) {
    return `installing the stand-in failed: ${error.message ?? error}`;
  }
}

async function main() {
  const ready = prepared();
  if (ready) return console.log(`editor: ready, ${describe(ready)}`);
  const reasons = [];
  for (const way of [download, installStandIn]) {
    const got = await way();
    if (typeof got !== 'string') return console.log(`editor: prepared, ${describe(got)}`);
    console.log(`editor: ${got}`);
    reasons.push(got);
  }
  throw new Error(
    [
      'no editor for the editor tests:',
      ...reasons.map(reason => `  - ${reason}`),
      'What to do, one of these:',
      '  - give this machine a display and a network in which the ordinary download works, or',
      '  - run as root on Debian: apt-get and npm bring the stand-in, or',
      '  - install Chromium (apt-get install chromium) and run again, or',
      '  - name an editor executable in EDITOR_HOST.',
    ].join('\n'),
  );
}

const describe = ({ kind, executable }) => `${kind}: ${path.relative(root, executable)}`;

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    await main();
    process.exit(0); // a download that was given up may leave sockets behind
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
}
