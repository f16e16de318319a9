import assert from 'node:assert/strict';
import type { MarkupContent, SelectionRange } from 'vscode-languageserver';
import { completions } from '../../../server/src/lsp/completion.ts';
import { definitions } from '../../../server/src/lsp/definition.ts';
import { foldingRanges } from '../../../server/src/lsp/folding.ts';
import { lineTokens } from '../../../server/src/lsp/line-tokens.ts';
import { references, rename } from '../../../server/src/lsp/references.ts';
import { selectionRanges } from '../../../server/src/lsp/selection.ts';
import { SEMANTIC_LEGEND, semanticTokens } from '../../../server/src/lsp/semantic-tokens.ts';
import { signatureHelp } from '../../../server/src/lsp/signature.ts';
import { documentSymbols } from '../../../server/src/lsp/symbols.ts';
import { wordHover } from '../../../server/src/lsp/word-hover.ts';
import { ProgramText, type ReadOptions } from '../../../server/src/rs274/index.ts';
import { atCursor } from './at-cursor.ts';
import { allPrograms } from './programs.ts';

const MILL: ReadOptions = { dialect: 'iso6983', kind: 'mill' };
const NGC: ReadOptions = { dialect: 'ngc', kind: 'mill' };
const LATHE: ReadOptions = { dialect: 'lathe-a', kind: 'lathe' };

function hoverText(marked: string, options: ReadOptions): string {
  const { reading, position } = atCursor(marked, options);
  const hover = wordHover(reading, position);
  return hover === undefined ? '' : (hover.contents as MarkupContent).value.replace(/\\/g, '');
}

describe('hover of a word', () => {
  const cases: [string, string, ReadOptions, RegExp[]][] = [
    [
      'a code',
      'G21 G90\nG^1 X1. F100\n',
      MILL,
      [/^\*\*G1\*\* straight line at feed/, /Modal group G 1 \(motion\)/, /ISO 6983-1/],
    ],
    [
      'what is still in force',
      'G21 G90\nG1 F300 X1.\nX^2.\n',
      MILL,
      [
        /^\*\*X\*\* position along X, with G1/,
        /Still in force: G1 \(straight line at feed\) from line 2/,
        /G90 \(absolute\) from line 1/,
        /F300 from line 2/,
      ],
    ],
    [
      'the second of two changes',
      'G0 X1.\nG1 X2. F10\nG0 X3.\nY^1.\n',
      MILL,
      [/G0 \(rapid positioning\) from line 3/, /F10 from line 2/],
    ],
    [
      'a word of a cycle',
      'G0 Z5.\nG83 Z-9. R^2. Q3. F90\n',
      MILL,
      [/R level, where the feed begins, with G83/],
    ],
    [
      'a word of a cycle in force',
      'G0 Z5.\nG83 Z-9. R2. Q3. F90\nX5. Q^2.\n',
      MILL,
      [/depth of a peck, with G83/],
    ],
    [
      'another meaning by dialect',
      'G^90 X30. Z-5. F0.2\n',
      LATHE,
      [/turning cycle/, /needs X or U or Z or W/i],
    ],
    [
      'a code of other dialects',
      'G^32 Z-5. F1.\n',
      NGC,
      [/is not a code of ngc/, /thread, one pass \(lathe-a\)/],
    ],
    ['a code of none', 'M^997\n', NGC, [/not a code of ngc|not a code that is known/]],
    [
      'a code that is not followed',
      'G^68.2 X0 Y0 Z0 I0 J30. K0\n',
      MILL,
      [/Not followed\. Not checked: positions/],
    ],
    ['a diameter', 'G0 X^30.\n', LATHE, [/as a diameter/]],
    [
      'a word without a point',
      'G0 X^30000\n',
      { ...MILL, least_increment_mm: 0.001 },
      [/counts steps of 0\.001 mm/],
    ],
    [
      'a parameter',
      '#101=6\nG0 X#1^01\n',
      MILL,
      [/#101\*\* parameter, last set above on line 1: #101=6/, /Set in 1 and used in 1/],
    ],
    ['block delete', '^/ G0 X1.\n', MILL, [/leaves this block out/]],
    ['an arc centre', 'G0 X0 Y0\nG2 X10. I^5. F100\n', MILL, [/centre along X, with G2/]],
  ];
  for (const [about, marked, options, wanted] of cases) {
    it(about, () => {
      const text = hoverText(marked, options);
      for (const pattern of wanted) assert.match(text, pattern);
    });
  }
  it('says nothing in comments and on blanks', () => {
    assert.equal(hoverText('(A ^COMMENT)\n', MILL), '');
    assert.equal(hoverText('G0 X1.    ^   \n', MILL), '');
  });
});

describe('completion', () => {
  const labels = (marked: string, options: ReadOptions): string[] => {
    const { reading, position } = atCursor(marked, options);
    return completions(reading, position)
      .sort((a, b) => (a.sortText ?? a.label).localeCompare(b.sortText ?? b.label))
      .map(({ label }) => label);
  };
  it('offers the codes of the dialect', () => {
    const codes = labels('G^\n', MILL);
    for (const code of ['G0', 'G81', 'G54.1', 'G65']) assert.ok(codes.includes(code), code);
    for (const code of ['G32', 'G38.2', 'G7']) assert.ok(!codes.includes(code), code);
  });
  it('offers no second code of a modal group', () => {
    const codes = labels('G1 G^\n', MILL);
    assert.ok(
      !codes.includes('G0') && !codes.includes('G81') && codes.includes('G90') && codes.includes('G4'),
    );
  });
  it('offers M codes', () => assert.ok(labels('M^\n', LATHE).includes('M30')));
  it('offers first the words that a cycle needs', () =>
    assert.deepEqual(labels('G83 ^\n', MILL).slice(0, 3), ['Z', 'R', 'Q']));
  it('leaves out words that stand there', () =>
    assert.deepEqual(labels('G83 Z-5. Q2. ^\n', MILL).slice(0, 1), ['R']));
  it('offers the words of the motion in force', () =>
    assert.ok(labels('G1 X1. F100\n^\n', MILL).includes('X')));
  it('offers the programs that can be called', () => {
    assert.deepEqual(labels('O1\nM98 P^\nM30\nO2 (SLOT)\nM99\n', MILL), ['P1', 'P2']);
  });
  it('offers nothing in a comment or a number', () => {
    assert.deepEqual(labels('(G^\n', MILL), []);
    assert.deepEqual(labels('G0 X1^\n', MILL), []);
  });
  it('replaces what was typed', () => {
    const { reading, position } = atCursor('G0 G5^\n', MILL);
    const item = completions(reading, position).find(({ label }) => label === 'G54');
    assert.deepEqual(item?.textEdit, {
      range: { start: { line: 0, character: 3 }, end: { line: 0, character: 5 } },
      newText: 'G54',
    });
  });
});

describe('signature help', () => {
  const help = (marked: string, options: ReadOptions) => {
    const { reading, position } = atCursor(marked, options);
    const found = signatureHelp(reading, position);
    if (found === undefined) return undefined;
    const signature = found.signatures[found.activeSignature ?? 0];
    const active = signature.parameters?.[found.activeParameter ?? 0];
    return {
      label: signature.label,
      count: found.signatures.length,
      active: active === undefined ? '' : String(active.documentation),
    };
  };
  it('names the words of a drilling cycle', () => {
    const found = help('G83 Z-9. R^2.\n', MILL);
    assert.match(found?.label ?? '', /^G83 Z R Q/);
    assert.equal(found?.active, 'R level, where the feed begins');
  });
  it('follows the cycle in force', () =>
    assert.match(help('G0 Z9.\nG81 Z-9. R2. F90\nX1. ^\n', MILL)?.label ?? '', /^G81/));
  it('knows both blocks of a roughing cycle', () => {
    assert.deepEqual(help('G71 U^2. R1.\n', LATHE), {
      label: 'G71 U R',
      count: 2,
      active: 'first block: depth of a pass (radius); second: stock on X (diameter)',
    });
    assert.equal(help('G71 P10 Q20 U0.4^\n', LATHE)?.label, 'G71 P Q U W F S');
  });
  it('has none for a plain move', () => assert.equal(help('G1 X1. ^\n', MILL), undefined));
});

const at = (list: { range: { start: { line: number; character: number } } }[]): string[] =>
  list.map(({ range }) => `${range.start.line + 1}:${range.start.character}`);

describe('definitions and references', () => {
  const cases: [string, string, ReadOptions, string[], string[]][] = [
    ['a subprogram', 'O1\nM98 P^2\nM98 P30002\nM30\nO2\nM99\n', MILL, ['5:0'], ['2:4', '3:4']],
    ['a subroutine', 'o<a> sub\no<a> endsub\no<a^> call\nM2\n', NGC, ['1:0'], ['2:0', '3:0']],
    ['a block', 'N1 #1=0\nN2 #1=#1+1\nIF [#1 LT 3] GOTO ^2\nM30\n', MILL, ['2:0'], ['3:18']],
    ['the block ahead first', 'N5 #1=0\nGOTO ^5\nN5 M30\n', MILL, ['3:0'], ['2:5']],
    [
      'a profile',
      'G71 U1. R1.\nG71 P^10 Q20 U0.4 W0.1\nN10 G0 X5.\nN20 X9.\nG70 P10 Q20\nM30\n',
      LATHE,
      ['3:0'],
      ['2:4', '5:4'],
    ],
    [
      'a parameter, the nearest setting first',
      '#1=1\n#1=2\nG0 X#^1\n#1=3\nM30\n',
      MILL,
      ['2:0', '1:0', '4:0'],
      ['3:4'],
    ],
    ['a named parameter', '#<w> = 1\nG0 X[#<^W> + 1]\nM2\n', NGC, ['1:0'], ['2:5']],
    ['a tool', 'T5 M6\nG0 X1.\nT5^\nM30\n', MILL, ['1:0'], ['3:0']],
    ['a lathe tool', 'T0101\nG0 X1.\nT010^1\nM30\n', LATHE, ['1:0'], []],
    ['nothing', 'G0 X^1.\n', MILL, [], []],
    ['a mill cycle has no profile', 'N5 G0 X1.\nG73 Z-9. R2. Q^5 F100\nM30\n', MILL, [], []],
  ];
  for (const [about, marked, options, makes, uses] of cases) {
    it(about, () => {
      const { reading, position } = atCursor(marked, options);
      assert.deepEqual(at(definitions(reading, 'file:///a.nc', position)), makes);
      assert.deepEqual(at(references(reading, 'file:///a.nc', position, false)), uses);
    });
  }
  it('renames a named parameter everywhere', () => {
    const { reading, position } = atCursor('#<w> = 1\nG0 X#<^W>\nM2\n', NGC);
    const edits = rename(reading, 'u', position, 'width')?.changes?.u ?? [];
    assert.deepEqual(
      edits.map(({ newText }) => newText),
      ['#<width>', '#<width>'],
    );
    assert.equal(rename(reading, 'u', position, '_width'), undefined);
    assert.equal(rename(reading, 'u', position, 'a>b'), undefined);
  });
});

describe('outline, folding, selection', () => {
  it('lists tools', () => {
    const { reading } = atCursor(
      'G21 G90\n(T1 D10. END MILL)\nT1 M6\nG0 X1.\nG0 Z5.\n(SPOT DRILL)\nT2 M6\nG0 X2.\nM30\n',
      MILL,
    );
    assert.deepEqual(
      documentSymbols(reading).map(({ name, detail, range }) => [
        name,
        detail,
        range.start.line,
        range.end.line,
      ]),
      [
        ['T1', 'T1 D10. END MILL', 2, 5],
        ['T2', 'SPOT DRILL', 6, 9],
      ],
    );
  });
  it('puts tools inside their programs', () => {
    const { reading } = atCursor('O1 (MAIN)\nT1 M6\nM98 P2\nM30\nO2 (SLOT)\nG0 X1.\nM99\n', MILL);
    const symbols = documentSymbols(reading);
    assert.deepEqual(
      symbols.map(({ name, detail, children }) => [name, detail, children?.map(child => child.name)]),
      [
        ['O1', 'MAIN', ['T1']],
        ['O2', 'SLOT', undefined],
      ],
    );
  });
  it('lists subroutines', () => {
    const { reading } = atCursor('o<ring> sub\nG0 X1\no<ring> endsub\no<ring> call\nM2\n', NGC);
    assert.deepEqual(
      documentSymbols(reading).map(({ name }) => name),
      ['o<ring>'],
    );
  });
  it('folds tools, loops and runs of comments', () => {
    const { reading } = atCursor(
      '(A)\n(B)\nT1 M6\n#1=0\nWHILE [#1 LT 2] DO1\n#1=#1+1\nEND1\n\nT2 M6\nM30\n',
      MILL,
    );
    assert.deepEqual(
      foldingRanges(reading)
        .map(({ startLine, endLine, kind }) => [startLine, endLine, kind ?? ''])
        .sort((a, b) => Number(a[0]) - Number(b[0])),
      [
        [0, 1, 'comment'],
        [2, 6, ''],
        [4, 6, ''],
        [8, 9, ''],
      ],
    );
  });
  it('grows from number to word to block to line to tool to program', () => {
    const { reading, position } = atCursor('G21\nT1 M6\nN10 G1 X1^2.5 F100 (CUT)\nM30', MILL);
    const sizes: string[] = [];
    for (
      let range: SelectionRange | undefined = selectionRanges(reading, [position])[0];
      range !== undefined;
      range = range.parent
    ) {
      sizes.push(reading.text.getText(range.range).replaceAll('\n', '|'));
    }
    assert.deepEqual(sizes, [
      '',
      '12.5',
      'X12.5',
      'G1 X12.5 F100',
      'N10 G1 X12.5 F100 (CUT)',
      'T1 M6|N10 G1 X12.5 F100 (CUT)|M30',
      'G21|T1 M6|N10 G1 X12.5 F100 (CUT)|M30',
    ]);
  });
});

describe('tokens', () => {
  it('marks words, parameters and comments', () => {
    const text = ProgramText.fromString('G21\nN10 G1 X#5 (CUT)\n');
    const data = semanticTokens(text, { start: { line: 1, character: 0 }, end: { line: 1, character: 99 } });
    const types: string[] = [];
    for (let at = 0; at < data.length; at += 5)
      types.push(`${data[at]} ${data[at + 1]} ${data[at + 2]} ${SEMANTIC_LEGEND.tokenTypes[data[at + 3]]}`);
    assert.deepEqual(types, [
      '1 0 3 label',
      '0 4 2 keyword',
      '0 3 1 property',
      '0 1 2 parameter',
      '0 3 5 comment',
    ]);
  });
  it('holds every character of any line once', () => {
    for (const { text } of allPrograms()) {
      for (const line of text.split('\n')) {
        let last = 0;
        let left = '';
        for (const { start, end } of lineTokens(line)) {
          assert.ok(start >= last && end > start && end <= line.length, line);
          left += line.slice(last, start);
          last = end;
        }
        assert.equal((left + line.slice(last)).trim(), '', line);
      }
    }
  });
});
