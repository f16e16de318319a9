#!/usr/bin/env node
// The one test command: builds, prepares an editor, runs every suite, adds up, and ends on 'N passed, N failed'.
//   node tests/run-all.mjs [NAME…]    only the named suites
import { spawn } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');
const bin = name => path.join(root, 'node_modules/.bin', name);
const mocha = (...args) => [bin('mocha'), '--reporter', 'dot', ...args];
const own = ['--no-config', '--node-option', 'import=tsx', '--timeout', '60000'];

/** In this order; a suite of `one` counts as one test, the others print what they counted. */
const suites = [
  { name: 'build', one: true, run: [process.execPath, 'esbuild.mjs'], cure: 'read the message above' },
  { name: 'types', one: true, run: [bin('tsc'), '-p', '.', '--noEmit'], cure: 'npm run types' },
  { name: 'lint', one: true, run: [bin('biome'), 'check', '.'], cure: 'npx biome check --write .' },
  { name: 'unit', run: mocha(), cure: 'npm run unit' },
  { name: 'package', run: mocha(...own, 'tests/package/*.test.ts'), cure: 'npm run package' },
  {
    name: 'editor prepared',
    one: true,
    run: [process.execPath, 'tests/editor/prepare.mjs'],
    cure: 'see the list above',
  },
  { name: 'browser', run: mocha(...own, 'tests/browser/*.test.ts'), cure: 'see the list above' },
  { name: 'editor', run: [process.execPath, 'tests/editor/run.mjs', 'node'], cure: 'npm run test:editor' },
  {
    name: 'editor web',
    run: [process.execPath, 'tests/editor/run.mjs', 'web'],
    cure: 'npm run test:editor -- web',
  },
];

const asked = process.argv.slice(2);
const unknown = asked.filter(name => !suites.some(suite => suite.name === name));
if (unknown.length) {
  console.error(`no suite ${unknown.join(', ')}; there are: ${suites.map(suite => suite.name).join(', ')}`);
  process.exit(2);
}
const results = [];
for (const suite of suites.filter(({ name }) => !asked.length || asked.includes(name))) {
  console.log(`\n=== ${suite.name}`);
  const began = Date.now();
  const { code, output } = await start(suite.run);
  results.push({ ...suite, ...counted(suite, code, output), seconds: (Date.now() - began) / 1000 });
}

console.log('\n=== all suites');
for (const { name, passed, failed, skipped, seconds, cure } of results) {
  const rest = [skipped ? `${skipped} skipped (reason above)` : '', failed ? `cure: ${cure}` : '']
    .filter(Boolean)
    .join('; ');
  console.log(`${name}: ${passed} passed, ${failed} failed in ${seconds.toFixed(1)} s${rest && `; ${rest}`}`);
}
const sum = key => results.reduce((total, result) => total + result[key], 0);
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') ? 1 : 0;

/** Runs a command, shows its output as it comes, and keeps it. */
function start([command, ...args]) {
  return new Promise(done => {
    let output = '';
    const child = spawn(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
    for (const [stream, to] of [
      [child.stdout, process.stdout],
      [child.stderr, process.stderr],
    ]) {
      stream.setEncoding('utf8').on('data', text => {
        output += text;
        to.write(text);
      });
    }
    child.once('error', error => done({ code: 1, output: `${output}${error}` }));
    child.once('close', code => done({ code: code ?? 1, output }));
  });
}

/** What a suite counted: mocha's own summary or the line of the editor suites. Ending badly without a count is one failure. */
function counted({ one }, code, output) {
  if (one) return { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, skipped: 0 };
  const line = output.match(/^(\d+) passed, (\d+) failed, (\d+) skipped$/m);
  const last = word => Number(output.match(new RegExp(`^\\s*(\\d+) ${word}\\b`, 'm'))?.[1] ?? 0);
  const [passed, failed, skipped] = line
    ? line.slice(1).map(Number)
    : [last('passing'), last('failing'), last('pending')];
  const silent = code !== 0 && failed === 0;
  const empty = code === 0 && passed === 0;
  return { passed, failed: silent || empty ? failed + 1 : failed, skipped };
}
