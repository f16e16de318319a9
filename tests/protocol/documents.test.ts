import assert from 'node:assert/strict';
import { edited } from './screens.ts';
import { type Edit, inSession, type Problem, type Session, sharedSession } from './session.ts';

const HEAD = '%\nG20 G17 G40 G49 G80 G90 G94\nT2 M6 (1/2 END MILL 3 FLUTE)\nS8000 M3\n';
const CUT = 'G54 G0 X0 Y0\nG43 H2 Z1.\nG1 Z-.25 F30.\nX4. F72.\n';
const PROGRAM = `${HEAD}${CUT}G0 Z1.\nM30\n%\n`;

/** Where each problem stands, with its code. */
const places = (problems: readonly Problem[]) =>
  problems.map(
    ({ range, code }) => `${range.start.line}:${range.start.character}-${range.end.character} ${code}`,
  );

async function hints(session: Session, uri: string): Promise<unknown> {
  const range = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };
  return session.ask('inlayHint', uri, { range });
}

const change = (start: [number, number], end: [number, number], newText: string): Edit => ({
  range: { start: { line: start[0], character: start[1] }, end: { line: end[0], character: end[1] } },
  newText,
});

/** Edits as an editor sends them, one after the other; places outside the text count as its nearest end. */
const EDITS: readonly [about: string, ...Edit[]][] = [
  ['a character is typed', change([7, 4], [7, 4], '1')],
  ['a line is split and joined', change([6, 2], [6, 2], '\n'), change([6, 2], [7, 0], '')],
  ['several lines are replaced by one', change([4, 0], [7, 0], 'G1 X1. F20.\n')],
  ['all is deleted, then typed again', change([0, 0], [99, 0], ''), change([0, 0], [0, 0], PROGRAM)],
  ['a place behind the end of a line', change([3, 999], [3, 999], ' M8')],
  ['a place behind the last line', change([999, 5], [1000, 7], 'G1 X9.\n')],
  ['a range from inside to far outside', change([8, 3], [999, 999], '')],
  ['a comment outside the basic plane', change([4, 0], [4, 0], '(🔩 BOLT 🛠️ HOLES) ')],
  [
    'inside a comment with wide characters',
    change([2, 6], [2, 6], '(Ø12 ± 0,1 – ½"🔩) '),
    change([2, 9], [2, 10], 'µ'),
  ],
  ['line ends of two kinds', change([4, 0], [4, 0], 'M8\r\nM9\r\n')],
  ['characters that are no text', change([5, 3], [5, 3], '\u0000\u0001\ufeff\ud83d')],
  ['a very long line', change([5, 0], [5, 0], `(${'X'.repeat(100_000)})\n`)],
];

describe('edits of an open program over the protocol', () => {
  const shared = sharedSession({});
  for (const [about, ...edits] of EDITS) {
    it(about, async () => {
      const session = shared();
      const uri = `untitled:${about}`;
      await session.openText(uri, PROGRAM);
      await hints(session, uri);
      await session.change(
        uri,
        edits.map(({ range, newText }) => ({ range, text: newText })),
      );
      const after = await session.settled(uri);
      const whole = edits.reduce((text, edit) => edited(text, [edit]), PROGRAM);
      const fresh = `untitled:fresh ${about}`;
      await session.openText(fresh, whole);
      assert.deepEqual(places(after), places(await session.settled(fresh)));
      assert.deepEqual(await hints(session, uri), await hints(session, fresh));
    });
  }

  it('columns count UTF-16 units: a problem behind an emoji stands at its word', () => {
    const text = PROGRAM.replace('X4. F72.', '(🔩) G0 G1 X4. F72.');
    return inSession({ 'plate.nc': text }, async session => {
      const uri = await session.open('plate.nc');
      const found = (await session.settled(uri)).find(({ code }) => code === 'group-conflict');
      const line = text.split('\n').findIndex(source => source.startsWith('(🔩)'));
      assert.deepEqual([found?.range.start.line, found?.range.start.character], [line, '(🔩) G0 '.length]);
      const position = { line, character: '(🔩) G0 G1 X4. '.length };
      const hover = await session.ask<{ range: { start: { character: number } } }>('hover', uri, {
        position,
      });
      assert.equal(hover.range.start.character, position.character);
    });
  });
});

describe('unsaved programs over the protocol', () => {
  it('are reviewed like any other, and know no sheet', () =>
    inSession({ 'plate.setup.json': '{}' }, async session => {
      const uri = 'untitled:Untitled-1';
      await session.openText(uri, PROGRAM.replace('X4. F72.', 'G0 G1 X4. F72.'));
      assert.deepEqual(places(await session.settled(uri)), ['7:3-5 group-conflict']);
      assert.match(session.status.get(uri)?.text ?? '', /no setup sheet/);
    }));

  it('two of them do not mix', () =>
    inSession({}, async session => {
      await session.openText('untitled:Untitled-1', PROGRAM.replace('X4. F72.', 'G0 G1 X4. F72.'));
      await session.openText('untitled:Untitled-2', PROGRAM);
      assert.equal((await session.settled('untitled:Untitled-1')).length, 1);
      assert.deepEqual(await session.settled('untitled:Untitled-2'), []);
    }));
});

const ANY = [
  '',
  '%',
  '\n\n\n',
  'HELLO',
  '(((((',
  '[[[[[',
  '#',
  '\u0000',
  'G',
  '%\n%\n%',
  ';',
  'O1\nM98 P1\n',
];

describe('any text over the protocol', () => {
  const shared = sharedSession({});
  for (const text of ANY) {
    it(`${JSON.stringify(text)} is answered everywhere`, async () => {
      const session = shared();
      const uri = `untitled:${ANY.indexOf(text)}.nc`;
      await session.openText(uri, text);
      await session.settled(uri);
      const position = { line: 0, character: 1 };
      const range = { start: { line: 0, character: 0 }, end: { line: 5, character: 0 } };
      const options = { tabSize: 2, insertSpaces: true };
      for (const [feature, rest] of [
        ['hover', { position }],
        ['completion', { position }],
        ['signatureHelp', { position }],
        ['definition', { position }],
        ['references', { position, context: { includeDeclaration: true } }],
        ['rename', { position, newName: 'depth' }],
        ['documentSymbol', {}],
        ['foldingRange', {}],
        ['selectionRange', { positions: [position] }],
        ['semanticTokens/range', { range }],
        ['formatting', { options }],
        ['rangeFormatting', { range, options }],
        ['codeAction', { range, context: { diagnostics: [] } }],
        ['inlayHint', { range }],
      ] as const)
        assert.notEqual(await session.ask(feature, uri, rest), undefined, feature);
      for (const command of COMMANDS) assert.ok(await session.command(command, uri, position), command);
    });
  }
});

const COMMANDS = [
  'sayBlock',
  'explain',
  'checkBeforeSending',
  'showReport',
  'showProveout',
  'renumber',
  'openSetupSheet',
  'confirmTool',
  'confirmAllTools',
  'chooseDialect',
];
