import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../..');
const fixtures = path.join(root, 'fixtures');

describe('check', () => {
  const scratch = mkdtempSync(path.join(tmpdir(), 'tapeproof-check-'));
  const bundled = path.join(scratch, 'cli.mjs');
  const check = (...args: string[]) => {
    const run = spawnSync(process.execPath, [bundled, 'check', ...args], {
      cwd: root,
      encoding: 'utf8',
      timeout: 50_000,
    });
    return { code: run.status, out: run.stdout, err: run.stderr };
  };
  const program = (name: string, text: string | Uint8Array) => {
    const file = path.join(scratch, name);
    writeFileSync(file, text);
    return file;
  };

  before(async () => {
    const requires = "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);";
    await build({
      entryPoints: [path.join(root, 'server/src/cli/main.ts')],
      outfile: bundled,
      bundle: true,
      platform: 'node',
      format: 'esm',
      mainFields: ['module', 'main'],
      banner: { js: requires },
      logLevel: 'error',
    });
  });
  after(() => rmSync(scratch, { recursive: true, force: true }));

  for (const format of ['text', 'json', 'sarif']) {
    it(`says the same in ${format} with one job and with three`, () => {
      const one = check(fixtures, '--format', format);
      const three = check(fixtures, '--format', format, '--jobs', '3');
      assert.equal(one.code, 0, one.err);
      assert.ok(one.out.length > 100);
      assert.deepEqual(three, one);
    });
  }

  it('shards hold every file once', () => {
    const paths = (...args: string[]) =>
      (
        JSON.parse(check(fixtures, '--format', 'json', ...args).out) as { files: { path: string }[] }
      ).files.map(f => f.path);
    const all = paths();
    assert.deepEqual([...paths('--shard', '1/2'), ...paths('--shard', '2/2')].sort(), [...all].sort());
    assert.ok(all.length >= 8);
  });

  it('ends with 1 on an error, with 2 where a file cannot be read or the usage is wrong', () => {
    const bad = program('bad.nc', 'G21 G90 G94\nS1000 M3\nG0 X0 Y0 Z1\nG1 X10\n');
    assert.equal(check(bad).code, 1);
    assert.equal(check(bad, '--fail-on', 'never').code, 0);
    const none = check(path.join(scratch, 'none.nc'));
    assert.equal(none.code, 2);
    assert.match(none.err, /there is no such file/);
    assert.equal(check(bad, '--shard', '3/2').code, 2);
    assert.equal(check().code, 2);
  });

  it('reads a program that comes through a named pipe as it reads the file', () => {
    const file = path.join(fixtures, 'bracket/bracket.nc');
    const pipe = path.join(scratch, 'pipe.nc');
    const sheet = path.join(fixtures, 'bracket/bracket.setup.json');
    const script = 'mkfifo "$1" && { cat "$2" > "$1" & } && exec "$3" "$4" check "$1" --setup "$5"';
    const run = spawnSync('sh', ['-c', script, 'sh', pipe, file, process.execPath, bundled, sheet], {
      cwd: root,
      encoding: 'utf8',
      timeout: 50_000,
    });
    const read = check(file, '--setup', sheet);
    assert.equal(run.stderr, '');
    assert.equal(run.stdout.replaceAll(pipe, file), read.out);
    assert.ok(read.out.length > 50);
  });

  it('lets no control character of a program reach the terminal', () => {
    const file = program('sly.nc', 'G21 G90\n(\u001b[31mRED\u0007)\nG0 X1 \u001b[2J\nG44.9 \u009b1m\n');
    const { out } = check(file);
    assert.doesNotMatch(out, /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
  });

  it('reads any bytes without ending badly', () => {
    const bytes = new Uint8Array(4096).map((_, i) => (i * 7919) % 256);
    const { code, err } = check(program('bytes.nc', bytes), program('empty.nc', ''));
    assert.ok(code === 0 || code === 1, err);
    assert.equal(err, '');
  });
});
