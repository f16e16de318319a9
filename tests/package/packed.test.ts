import assert from 'node:assert/strict';
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import {
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { mostBytes, pack } from '../../client/scripts/pack.mjs';
import { unzip } from './zip.ts';

describe('what is handed out', function () {
  this.timeout(180_000);
  const folder = mkdtempSync(path.join(tmpdir(), 'tapeproof-packed-'));
  let packed: { vsix: string; tarball: string };
  before(() => {
    packed = pack(folder);
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  describe('the packed extension', () => {
    const unpacked = path.join(folder, 'unpacked');
    let files: Map<string, Buffer>;
    before(() => {
      files = unzip(readFileSync(packed.vsix));
      for (const [name, content] of files) {
        const file = path.join(unpacked, name);
        mkdirSync(path.dirname(file), { recursive: true });
        writeFileSync(file, content);
      }
    });

    it('is small', () => {
      const { size } = statSync(packed.vsix);
      assert.ok(size < mostBytes, `${size} bytes, at most ${mostBytes}`);
    });

    it('holds every file that its manifest names', () => {
      const manifest = JSON.parse(files.get('extension/package.json')!.toString());
      const { contributes } = manifest;
      const named: string[] = [
        manifest.main,
        manifest.browser,
        contributes.grammars[0].path,
        contributes.languages[0].configuration,
        ...contributes.jsonValidation.map((row: { url: string }) => row.url),
        ...contributes.walkthroughs[0].steps.map(
          (step: { media: { markdown: string } }) => step.media.markdown,
        ),
      ];
      for (const name of named) assert.ok(files.has(path.posix.join('extension', name)), name);
      for (const name of [
        'server.node.js',
        'server.body.node.js',
        'server.browser.js',
        'sample/bracket.nc',
        'sample/bracket.setup.json',
        'notices.txt',
      ])
        assert.ok(files.has(`extension/dist/${name}`), name);
    });

    it('holds no source, test or package', () => {
      const odd = [...files.keys()].filter(name => /node_modules|\/tests?\/|\.ts$|\.map$/.test(name));
      assert.deepEqual(odd, []);
    });

    /** Starts the packed server, has `initialize` answered, and ends it. */
    async function capabilitiesOf(...args: string[]): Promise<Record<string, unknown>> {
      const server = path.join(unpacked, 'extension/dist/server.node.js');
      const child = spawn(process.execPath, [server, '--stdio', ...args]);
      const connection = createProtocolConnection(
        new StreamMessageReader(child.stdout),
        new StreamMessageWriter(child.stdin),
      );
      connection.listen();
      const result = await connection.sendRequest<{ capabilities: Record<string, unknown> }>('initialize', {
        processId: process.pid,
        rootUri: null,
        capabilities: {},
      });
      const ended = once(child, 'exit');
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      await ended;
      connection.dispose();
      return result.capabilities;
    }

    it('has a language server that answers', async () => {
      assert.ok((await capabilitiesOf()).inlayHintProvider);
    });

    it('keeps what it compiled, once, and does without it when it was damaged', async () => {
      const kept = path.join(folder, 'compiled');
      const argument = `--compiled=${kept}`;
      const first = await capabilitiesOf(argument);
      const [name, ...more] = readdirSync(kept);
      assert.deepEqual(more, []);
      const file = path.join(kept, name);
      const { mtimeMs, size } = statSync(file);
      assert.deepEqual(await capabilitiesOf(argument), first);
      assert.equal(statSync(file).mtimeMs, mtimeMs, 'the second start takes what the first kept');
      const bytes = readFileSync(file);
      writeFileSync(file, bytes.fill(0, size / 4, size / 2));
      assert.deepEqual(await capabilitiesOf(argument), first);
      assert.ok(!readFileSync(file).equals(bytes), 'what was damaged is made anew');
      assert.deepEqual(readdirSync(kept), [name]);
    });
  });

  describe('the packed command line', () => {
    const shop = path.join(folder, 'shop');
    before(() => {
      mkdirSync(shop);
      writeFileSync(path.join(shop, 'package.json'), '{ "private": true }');
      execFileSync(
        'npm',
        ['install', '--offline', '--no-audit', '--no-fund', '--loglevel=error', packed.tarball],
        {
          cwd: shop,
        },
      );
      cpSync('fixtures/bracket', path.join(shop, 'bracket'), { recursive: true });
    });
    const cache = path.join(folder, 'cache');
    const tapeproofWith = (TAPEPROOF_CACHE: string, ...args: string[]) =>
      spawnSync(path.join(shop, 'node_modules/.bin/tapeproof'), args, {
        cwd: shop,
        encoding: 'utf8',
        env: { ...process.env, TAPEPROOF_CACHE },
      });
    const tapeproof = (...args: string[]) => tapeproofWith(cache, ...args);

    it('brings no other package along', () => {
      const lock = JSON.parse(readFileSync(path.join(shop, 'package-lock.json'), 'utf8'));
      assert.deepEqual(Object.keys(lock.packages).filter(Boolean), ['node_modules/tapeproof']);
    });

    it('checks a program', () => {
      const { status, stdout, stderr } = tapeproof('check', '--format', 'json', 'bracket/bracket.nc');
      assert.equal(status, 0, stderr);
      const { files } = JSON.parse(stdout);
      assert.equal(files.length, 1);
      assert.match(files[0].path, /bracket\.nc$/);
    });

    it('keeps what it compiled, once, and does without it', () => {
      const args = ['check', 'bracket/bracket.nc'];
      const plain = tapeproofWith('off', ...args);
      assert.match(plain.stdout, /bracket\.nc/);
      const said = ({ status, stdout, stderr }: typeof plain) => ({ status, stdout, stderr });
      const cases: [string, string][] = [
        ['first', cache],
        ['again', cache],
        ['where no folder can be', path.join(shop, 'package.json')],
      ];
      for (const [name, place] of cases)
        assert.deepEqual(said(tapeproofWith(place, ...args)), said(plain), name);
      const [kept, ...more] = readdirSync(cache);
      assert.deepEqual(more, []);
      const file = path.join(cache, kept);
      const bytes = readFileSync(file);
      writeFileSync(file, Buffer.from(bytes).fill(0, bytes.length / 4, bytes.length / 2));
      assert.deepEqual(said(tapeproof(...args)), said(plain), 'damaged');
      assert.ok(statSync(file).size > 0);
    });

    it('checks a long program, read while the rest was loading, as a short one', () => {
      const lines = Array.from({ length: 60_000 }, (_, i) => `G1 X${(i % 97) / 10} Y${i % 3}. F300.`);
      writeFileSync(path.join(shop, 'long.nc'), ['G21 G90 G17', ...lines, 'M30', ''].join('\n'));
      const { status, stdout, stderr } = tapeproof(
        'check',
        '--format',
        'json',
        '--fail-on',
        'never',
        'long.nc',
      );
      assert.equal(status, 0, stderr);
      const { stdout: shared } = tapeproof(
        'check',
        '--format',
        'json',
        '--fail-on',
        'never',
        '--jobs',
        '2',
        'long.nc',
        'bracket',
      );
      const [alone] = JSON.parse(stdout).files;
      assert.ok(alone.findings.length > 0);
      assert.deepEqual(
        JSON.parse(shared).files.find((f: { path: string }) => f.path.endsWith('long.nc')),
        alone,
      );
    });

    it('reviews a program', () => {
      const { status, stdout, stderr } = tapeproof('review', '--format', 'json', 'bracket/bracket.nc');
      assert.equal(status, 0, stderr);
      const review = JSON.parse(stdout);
      assert.equal(review.schema, 1);
      assert.equal(review.program.units, 'inch');
    });

    it('ends with 2 on a file that is not there', () => {
      assert.equal(tapeproof('check', 'nothing.nc').status, 2);
    });

    it('gives the cutting library to others, with its types', () => {
      const code = "import('tapeproof/cutting').then(m => console.log(Object.keys(m).length))";
      const { stdout, stderr } = spawnSync(process.execPath, ['-e', code], { cwd: shop, encoding: 'utf8' });
      assert.ok(Number(stdout) > 5, stderr);
      const types = path.join(shop, 'node_modules/tapeproof/dist/types/cutting/index.d.ts');
      assert.match(readFileSync(types, 'utf8'), /export/);
    });
  });
});
