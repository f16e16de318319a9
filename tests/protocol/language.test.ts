import assert from 'node:assert/strict';
import { edited, job, sameScreen, spanText } from './screens.ts';
import { type Edit, inSession, type Place, type Session, type Span, sharedSession } from './session.ts';

interface Outline {
  name: string;
  detail?: string;
  range: Span;
  children?: Outline[];
}

const LOOSE = `%
o<drill_row> sub
  #<count> = 0
  o101 while [#<count> lt #1]
    g81 x[#<count>*10] z-5. r2. f100.
    #<count> = [#<count> + 1]
  o101 endwhile
o<drill_row> endsub
(HEAD OF THE PART)
(SECOND LINE OF IT)
g21 g90 g94
t1m6 (10 mm end mill 4 flute)
s2000m3
g0x0y0z5.
o<drill_row> call [4]
m2
%
`;

function outlineText(symbols: readonly Outline[], depth = 0): string {
  return symbols
    .map(
      ({ name, detail, range, children = [] }) =>
        `${'  '.repeat(depth)}${name}${detail ? ` | ${detail}` : ''} (${spanText(range)})\n${outlineText(children, depth + 1)}`,
    )
    .join('');
}

/** The text with the type of each token written under it. */
function tokenScreen(text: string, data: readonly number[], types: readonly string[]): string {
  const rows = text.split('\n').map(line => ({ line, marks: [] as string[] }));
  let line = 0;
  let start = 0;
  for (let at = 0; at < data.length; at += 5) {
    line += data[at];
    start = data[at] === 0 ? start + data[at + 1] : data[at + 1];
    rows[line].marks.push(
      `${text.split('\n')[line].slice(start, start + data[at + 2])}=${types[data[at + 3]]}`,
    );
  }
  return rows.map(({ line, marks }) => `${line}\n    ${marks.join('  ')}`).join('\n');
}

function typesOf(session: Session): string[] {
  const provider = session.capabilities.semanticTokensProvider as { legend: { tokenTypes: string[] } };
  return provider.legend.tokenTypes;
}

const whole = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };

describe('the language over the protocol', () => {
  const shared = sharedSession({ ...job('bracket', false), ...job('bushing', false), 'row.ngc': LOOSE });
  const place = (text: string, words: string, into = 0): Place => {
    const line = text.split('\n').findIndex(row => row.includes(words));
    return { line, character: text.split('\n')[line].indexOf(words) + into };
  };

  it('outline, folds and growing selections', async () => {
    const session = shared();
    const parts: string[] = [];
    for (const name of ['bracket.nc', 'bushing.nc', 'row.ngc']) {
      const uri = await session.open(name);
      const symbols = await session.ask<Outline[]>('documentSymbol', uri);
      const folds = await session.ask<{ startLine: number; endLine: number; kind?: string }[]>(
        'foldingRange',
        uri,
      );
      parts.push(
        `##### ${name}\n${outlineText(symbols)}folds: ${folds
          .map(
            ({ startLine, endLine, kind }) => `${startLine + 1} to ${endLine + 1}${kind ? ` (${kind})` : ''}`,
          )
          .join(', ')}`,
      );
    }
    const uri = session.uri('bracket.nc');
    const position = place(session.files['bracket.nc'], 'G41 D2 X-.1', 8);
    type Growing = { range: Span; parent?: Growing };
    const [found] = await session.ask<Growing[]>('selectionRange', uri, { positions: [position] });
    const grown: string[] = [];
    for (let at: Growing | undefined = found; at; at = at.parent) grown.push(spanText(at.range));
    parts.push(`##### selections growing\n${grown.join('\n')}`);
    sameScreen('language-outline', parts.join('\n\n'));
  });

  it('tokens of a range', async () => {
    const session = shared();
    const parts: string[] = [];
    for (const name of ['bracket.nc', 'row.ngc']) {
      const uri = session.uri(name);
      const range = { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } };
      const { data } = await session.ask<{ data: number[] }>('semanticTokens/range', uri, { range });
      const text = session.files[name].split('\n').slice(0, 21).join('\n');
      parts.push(`##### ${name}\n${tokenScreen(text, data, typesOf(session))}`);
    }
    sameScreen('language-tokens', parts.join('\n\n'));
  });

  it('a range of tokens is that range of the whole', async () => {
    const session = shared();
    const uri = session.uri('bracket.nc');
    const tokens = async (range: Span) => {
      const { data } = await session.ask<{ data: number[] }>('semanticTokens/range', uri, { range });
      const found: string[] = [];
      let [line, start] = [0, 0];
      for (let at = 0; at < data.length; at += 5) {
        line += data[at];
        start = data[at] === 0 ? start + data[at + 1] : data[at + 1];
        found.push(`${line}:${start}+${data[at + 2]} ${data[at + 3]}`);
      }
      return found;
    };
    const all = await tokens(whole);
    const some = await tokens({ start: { line: 10, character: 0 }, end: { line: 14, character: 999 } });
    assert.deepEqual(
      some,
      all.filter(token => Number(token.split(':')[0]) >= 10 && Number(token.split(':')[0]) <= 14),
    );
  });

  it('completion: codes, words of a cycle, programs', async () => {
    const session = shared();
    const text = `${session.files['bracket.nc'].split('\n').slice(0, 14).join('\n')}\nG\nG83 \nG1 X\n`;
    const uri = 'untitled:completion.nc';
    await session.openText(uri, text);
    const offered = async (line: number, character: number) => {
      const items = await session.ask<{ label: string; detail?: string; sortText?: string }[]>(
        'completion',
        uri,
        {
          position: { line, character },
        },
      );
      return items
        .sort((a, b) => ((a.sortText ?? a.label) < (b.sortText ?? b.label) ? -1 : 1))
        .map(({ label, detail }) => `  ${label} | ${detail}`);
    };
    const codes = await offered(14, 1);
    const screens = [
      `##### behind G: ${codes.length} codes, the first\n${codes.slice(0, 12).join('\n')}`,
      `##### behind G83\n${(await offered(15, 4)).slice(0, 9).join('\n')}`,
      `##### behind G1 X\n${(await offered(16, 4)).slice(0, 9).join('\n')}`,
    ];
    sameScreen('language-completion', screens.join('\n\n'));
  });

  it('signature of a cycle', async () => {
    const session = shared();
    type Help = {
      signatures: { label: string; parameters: { documentation: string }[] }[];
      activeParameter: number;
    };
    const uri = session.uri('bracket.nc');
    const position = place(session.files['bracket.nc'], 'G99 G83 Z-.75 R.1 Q.2', 21);
    const { signatures, activeParameter } = await session.ask<Help>('signatureHelp', uri, { position });
    const [{ label, parameters }] = signatures;
    assert.equal(label.split(' ')[1 + activeParameter], 'Q');
    const rows = parameters.map(({ documentation }, at) => `  ${label.split(' ')[1 + at]}: ${documentation}`);
    sameScreen('language-signature', [label, ...rows].join('\n'));
  });

  it('format: letters, blanks, and nothing that a control would read otherwise', async () => {
    const session = shared();
    const uri = session.uri('row.ngc');
    const options = { tabSize: 2, insertSpaces: true };
    const edits = await session.ask<Edit[]>('formatting', uri, { options });
    const after = edited(LOOSE, edits);
    sameScreen('language-format', after);
    const again = 'untitled:again.ngc';
    await session.openText(again, after);
    assert.deepEqual(await session.ask<Edit[]>('formatting', again, { options }), []);
    const range = { start: { line: 11, character: 0 }, end: { line: 12, character: 0 } };
    const some = await session.ask<Edit[]>('rangeFormatting', uri, { range, options });
    assert.deepEqual(
      some.map(edit => edit.range.start.line),
      [11, 12],
    );
  });

  it('rename and references follow a name through the file', async () => {
    const session = shared();
    const uri = session.uri('row.ngc');
    const position = place(LOOSE, '#<count> lt', 3);
    const context = { includeDeclaration: true };
    const places = await session.ask<{ range: Span }[]>('references', uri, { position, context });
    const made = await session.ask<{ range: Span }[]>('definition', uri, { position });
    const { changes } = await session.ask<{ changes: Record<string, Edit[]> }>('rename', uri, {
      position,
      newName: 'row',
    });
    assert.equal(places.length, changes[uri].length);
    assert.equal(made[0].range.start.line, 2);
    assert.equal(edited(LOOSE, changes[uri]), LOOSE.replaceAll('#<count>', '#<row>'));
    const sub = place(LOOSE, 'o<drill_row> call', 3);
    const [definition] = await session.ask<{ range: Span }[]>('definition', uri, { position: sub });
    assert.equal(definition.range.start.line, 1);
    assert.equal(await session.ask('rename', uri, { position: place(LOOSE, 't1m6'), newName: 'x' }), null);
  });
});

describe('a large outline over the protocol', () => {
  it('2000 tools are listed, tokens stop at the range that was asked', () => {
    const text = `G21 G90 G94\n${Array.from({ length: 2000 }, (_, i) => `T${i + 1} M6\nS1000 M3\nG1 X${i}. F100.\n`).join('')}M30\n`;
    return inSession({ 'many.nc': text }, async session => {
      const uri = await session.open('many.nc');
      assert.ok((await session.ask<Outline[]>('documentSymbol', uri)).length >= 2000);
      const { data } = await session.ask<{ data: number[] }>('semanticTokens/range', uri, {
        range: { start: { line: 100, character: 0 }, end: { line: 101, character: 99 } },
      });
      assert.equal(data.length % 5, 0);
      assert.ok(data.length / 5 < 10, `${data.length / 5} tokens`);
    });
  });
});
