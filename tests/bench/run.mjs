// Measures speed and size, each figure against a yardstick of the same run, and prints a table. Nothing fails by time.
//   npm run bench                        all parts
//   npm run bench -- PART…               only these
//   npm run bench -- --against FILE      beside the figures of an earlier run
import { execFileSync, fork } from 'node:child_process';
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '../..');
const out = path.join(here, 'out');
const { values, positionals } = parseArgs({
  options: { against: { type: 'string' }, out: { type: 'string' } },
  allowPositionals: true,
});

mkdirSync(out, { recursive: true });
const bundle = path.join(out, 'parts.mjs');
await build({
  entryPoints: [path.join(here, 'parts.ts'), path.join(here, 'table.ts')],
  outdir: out,
  outExtension: { '.js': '.mjs' },
  bundle: true,
  minify: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  mainFields: ['module', 'main'],
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
  logLevel: 'error',
});
execFileSync(process.execPath, ['esbuild.mjs'], { cwd: root, stdio: 'inherit' });
const { header, row } = await import(pathToFileURL(path.join(out, 'table.mjs')).href);

const all = execFileSync(process.execPath, [bundle, 'names'], { encoding: 'utf8' }).trim().split(' ');
const known = [...all, 'package', 'stock'];
const asked = positionals.length > 0 ? positionals : known;
const unknown = asked.filter(name => !known.includes(name));
if (unknown.length > 0) {
  console.error(`there is no part ${unknown.join(', ')}; the parts are ${known.join(', ')}`);
  process.exit(2);
}
const before = values.against ? JSON.parse(readFileSync(values.against, 'utf8')).figures : undefined;
const figures = [];
console.log(header(before !== undefined));
for (const name of asked) {
  if (name === 'stock') {
    console.log(
      execFileSync(process.execPath, ['--import', 'tsx', path.join(here, 'stock.bench.ts')], {
        cwd: root,
        encoding: 'utf8',
      }).trim(),
    );
    continue;
  }
  for (const figure of name === 'package' ? packed() : await part(name)) {
    figures.push(figure);
    console.log(row(figure, before));
  }
}
const file =
  values.out ?? path.join(out, `${new Date().toISOString().slice(0, 19).replaceAll(':', '-')}.json`);
const computer = { node: process.version, cores: os.cpus().length, model: os.cpus()[0]?.model };
writeFileSync(file, `${JSON.stringify({ computer, figures }, null, 2)}\n`);
console.log(`written: ${path.relative(root, file)}`);

/** One part in a process of its own. */
function part(name) {
  return new Promise((done, fail) => {
    const child = fork(bundle, [name, root], { execArgv: ['--expose-gc'] });
    let found = [];
    child.on('message', message => {
      found = message;
    });
    child.on('error', fail);
    child.on('exit', code => (code === 0 ? done(found) : fail(new Error(`${name} ended with ${code}`))));
  });
}

/** Bytes of what is handed out. */
function packed() {
  execFileSync(process.execPath, ['client/scripts/pack.mjs', path.join(out, 'packed')], {
    cwd: root,
    stdio: 'ignore',
  });
  const size = (name, file, target) => {
    const megabytes = statSync(path.join(root, file)).size / 1e6;
    return {
      name,
      against: 'megabytes',
      least: megabytes,
      median: megabytes,
      most: megabytes,
      samples: 1,
      target,
    };
  };
  return [
    size('packed extension', 'tests/bench/out/packed/tapeproof.vsix', 1.5),
    size('server as one file', 'dist/server.body.node.js'),
    size('client as one file', 'dist/client.node.js'),
  ];
}
