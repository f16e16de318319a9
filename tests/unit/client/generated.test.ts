import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { stale } from '../../../client/scripts/generate.ts';
import { type CommandRow, commands } from '../../../client/src/tables/commands.ts';
import { settings } from '../../../client/src/tables/settings.ts';
import { steps } from '../../../client/src/tables/walkthrough.ts';
import { serverCommands } from '../../../server/src/lsp/commands/index.ts';

const manifest = JSON.parse(readFileSync('package.json', 'utf8'));

describe('what is made from the tables of the client', () => {
  it('is fresh in the manifest and the manual', () => {
    assert.deepEqual(stale(), [], 'stale: run npm run generate');
  });

  it('names each command and setting once', () => {
    for (const rows of [commands, settings]) {
      const names = rows.map(row => row.name as string);
      assert.equal(new Set(names).size, names.length, names.join());
    }
  });

  it('offers exactly the commands that the server answers, and those of the client itself', () => {
    const offered = (commands as readonly CommandRow[])
      .filter(row => row.by === 'server')
      .map(row => row.name);
    assert.deepEqual(offered.sort(), serverCommands.map(command => command.name).sort());
  });

  it('gives no two commands the same key', () => {
    const keys = manifest.contributes.keybindings.map((row: { key: string }) => row.key);
    assert.equal(new Set(keys).size, keys.length, keys.join());
  });

  it('points the manifest only at files of the repository or of the build', () => {
    const { contributes } = manifest;
    const paths: string[] = [
      contributes.grammars[0].path,
      contributes.languages[0].configuration,
      ...contributes.walkthroughs[0].steps.map(
        (step: { media: { markdown: string } }) => step.media.markdown,
      ),
    ];
    for (const path of paths) assert.ok(existsSync(path), path);
    for (const path of [manifest.main, manifest.browser]) assert.match(path, /^\.\/dist\//);
  });

  it('has four first steps, each with a command of the table', () => {
    assert.equal(steps.length, 4);
    for (const step of steps)
      assert.ok(
        commands.some(row => row.name === step.command),
        step.command,
      );
  });

  it('recognises a program by its first line where the name does not say it', () => {
    const first = new RegExp(manifest.contributes.languages[0].firstLine);
    for (const yes of ['%', 'O1234', 'O0001 (BRACKET)', '  %  ', ':1001', 'N10 G21', 'n5g90', '\uFEFF%'])
      assert.match(yes, first);
    for (const no of [
      '%!PS-Adobe-3.0',
      '%PDF-1.7',
      '% a comment of another language',
      'Open the door',
      'G',
      'N1 is',
    ])
      assert.doesNotMatch(no, first);
  });
});

describe('the language configuration', () => {
  const { wordPattern } = JSON.parse(readFileSync('language-configuration.json', 'utf8'));
  const cases: [text: string, words: string[]][] = [
    ['G1X-1.5F1200.', ['G1', 'X-1.5', 'F1200.']],
    ['#101=#102+.5', ['#101', '#102', '+.5']],
    ['G01 X#1 Y[#2*3]', ['G01', 'X#1', 'Y', '#2', '3']],
    ['o<pocket> call [1.5]', ['o<pocket>', 'call', '1.5']],
    ['g54.1p3', ['g54.1', 'p3']],
    ['X #<width>', ['X', '#<width>']],
  ];
  for (const [text, words] of cases) {
    it(`takes ${text} as ${words.join(' | ')}`, () => {
      const found = [...text.matchAll(new RegExp(wordPattern.pattern, 'g'))].map(match => match[0]);
      assert.deepEqual(found, words);
    });
  }
});
