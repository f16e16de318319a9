import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { readSetupSheet } from '../../../server/src/setup/index.ts';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../..');
const main = path.join(root, 'server/src/cli/main.ts');
const bracket = path.join(root, 'fixtures/bracket/bracket.nc');

let bundled = '';
const builds = mkdtempSync(path.join(tmpdir(), 'tapeproof-built-'));

function tapeproof(cwd: string, ...args: string[]): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [bundled, ...args], { cwd, encoding: 'utf8', timeout: 50_000 });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

describe('the command line', () => {
  before(async () => {
    bundled = path.join(builds, 'cli.mjs');
    const requires = "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);";
    await build({
      entryPoints: [main],
      bundle: true,
      platform: 'node',
      format: 'esm',
      mainFields: ['module', 'main'],
      banner: { js: requires },
      outfile: bundled,
      logLevel: 'error',
    });
  });
  after(() => rmSync(builds, { recursive: true, force: true }));
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'tapeproof-cli-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  const file = (name: string, text?: string): string => {
    const at = path.join(folder, name);
    if (text !== undefined) writeFileSync(at, text);
    return at;
  };

  it('setup writes a sheet that reads back, and never overwrites one', () => {
    file(
      'op10.nc',
      'G20 G17 G90\nT1 M6 (1/2 END MILL 3 FLUTE)\nS8000 M3\nG1 X1. F10.\nT2 M6 (.201 DRILL)\nM30\n',
    );
    const first = tapeproof(folder, 'setup', 'op10.nc');
    assert.equal(first.code, 0, first.err);
    assert.match(first.out, /op10\.setup\.json: written, 2 tools, 2 of them read from comments/);
    assert.match(first.out, /teeth of T2/);
    const text = readFileSync(file('op10.setup.json'), 'utf8');
    const { sheet, problems } = readSetupSheet(text, 'op10.setup.json');
    assert.deepEqual(problems, []);
    assert.equal(sheet.tools?.get(1)?.teeth?.value, 3);
    assert.match(text, /"teeth": 3, \/\/ read on line 2/);
    const again = tapeproof(folder, 'setup', 'op10.nc');
    assert.equal(again.code, 2);
    assert.match(again.err, /is there and is not overwritten; --add/);
    assert.equal(readFileSync(file('op10.setup.json'), 'utf8'), text);
    assert.deepEqual(readdirSync(folder).sort(), ['op10.nc', 'op10.setup.json']);
  });

  it('setup --add adds only the missing tools, and keeps comments, values and the mode of the file', () => {
    file(
      'op10.nc',
      'G20 G17 G90\nT1 M6 (1/2 END MILL 3 FLUTE)\nS8000 M3\nG1 X1. F10.\nT2 M6 (.201 DRILL)\nM30\n',
    );
    const before =
      '// ours\n{\n  "units": "inch",\n  "tools": {\n    "1": { "teeth": 4 } // proven\n  }\n}\n';
    chmodSync(file('op10.setup.json', before), 0o640);
    const added = tapeproof(folder, 'setup', 'op10.nc', '--add');
    assert.equal(added.code, 0, added.err);
    const text = readFileSync(file('op10.setup.json'), 'utf8');
    assert.ok(text.includes('// ours') && text.includes('"1": { "teeth": 4 }') && text.includes('// proven'));
    const { sheet, problems } = readSetupSheet(text, 'x');
    assert.deepEqual(problems, []);
    assert.equal(sheet.tools?.get(1)?.teeth?.value, 4);
    assert.ok(Math.abs((sheet.tools?.get(2)?.diameter_mm?.value ?? 0) - 0.201 * 25.4) < 1e-6);
    if (process.platform !== 'win32') assert.equal(statSync(file('op10.setup.json')).mode & 0o777, 0o640);
    const nothing = tapeproof(folder, 'setup', 'op10.nc', '--add');
    assert.match(nothing.out, /has every tool of the program, nothing was added/);
    assert.equal(readFileSync(file('op10.setup.json'), 'utf8'), text);
  });

  it('setup leaves a sheet alone that it cannot read', () => {
    file('op10.nc', 'G20\nT1 M6\nG1 X1. F10.\n');
    file('op10.setup.json', '{ "tools": ');
    const added = tapeproof(folder, 'setup', 'op10.nc', '--add');
    assert.equal(added.code, 2);
    assert.equal(readFileSync(file('op10.setup.json'), 'utf8'), '{ "tools": ');
  });

  it('review and proveout write whole pages, and say where they cannot', () => {
    for (const command of ['review', 'proveout']) {
      const out = file(`${command}.html`);
      const made = tapeproof(folder, command, bracket, '--format', 'html', '--out', out);
      assert.equal(made.code, 0, made.err);
      assert.equal(made.out, '');
      assert.match(readFileSync(out, 'utf8'), /^<!DOCTYPE html>[\s\S]*<\/html>\n$/);
    }
    const nowhere = tapeproof(
      folder,
      'review',
      bracket,
      '--format',
      'html',
      '--out',
      path.join(folder, 'no/x.html'),
    );
    assert.equal(nowhere.code, 2);
    assert.match(nowhere.err, /cannot write .*there is no such folder/);
    assert.ok(!existsSync(path.join(folder, 'no')));
  });

  it('check writes one log for a folder', () => {
    file('a.nc', 'G21 G90\nG44.9 X1.\n');
    file('b.nc', 'G21 G90\n');
    const made = tapeproof(folder, 'check', '.', '--format', 'sarif');
    const log = JSON.parse(made.out);
    assert.equal(log.version, '2.1.0');
    assert.deepEqual(
      log.runs[0].artifacts.map((each: { location: { uri: string } }) => each.location.uri),
      ['a.nc', 'b.nc'],
    );
    assert.ok(log.runs[0].results.some((each: { ruleId: string }) => each.ruleId === 'code-unknown'));
  });

  it('proveout writes JSON of the shape that scripts rely on', () => {
    const { code, out } = tapeproof(folder, 'proveout', bracket, '--format', 'json');
    assert.equal(code, 0);
    const { tools } = JSON.parse(out);
    assert.deepEqual(
      tools.map((tool: { number: number; first_contact_percent?: number }) => [
        tool.number,
        tool.first_contact_percent,
      ]),
      [
        [1, 60],
        [2, 60],
        [3, 50],
        [4, undefined],
        [5, 60],
      ],
    );
  });

  it('explain answers, and offers near names where it cannot', () => {
    const known = tapeproof(folder, 'explain', 'chip', 'load');
    assert.equal(known.code, 0);
    assert.match(known.out, /^chip_load_mm \(quantity\): chip load\n/);
    const unknown = tapeproof(folder, 'explain', 'chip-lod-low');
    assert.equal(unknown.code, 2);
    assert.equal(unknown.out, '');
    assert.match(unknown.err, /nothing is called 'chip-lod-low'; near it: chip-load-low/);
  });
});
