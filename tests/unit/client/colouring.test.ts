import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as oniguruma from 'vscode-oniguruma';
import * as textmate from 'vscode-textmate';

const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
let grammar: textmate.IGrammar;

before(async () => {
  await oniguruma.loadWASM(readFileSync(wasm));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: sources => new oniguruma.OnigScanner(sources),
      createOnigString: text => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => {
      const file = 'syntaxes/rs274.tmLanguage.json';
      return textmate.parseRawGrammar(readFileSync(file, 'utf8'), file);
    },
  });
  grammar = (await registry.loadGrammar('source.rs274'))!;
});

/** The text of a line with the innermost scope of each piece, without its common ending: `G1:keyword.control.motion`. */
function colours(text: string): string[] {
  let state = textmate.INITIAL;
  let last: string[] = [];
  for (const line of text.split('\n')) {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    last = tokens
      .map(({ startIndex, endIndex, scopes }) => [line.slice(startIndex, endIndex).trim(), scopes.at(-1)!])
      .filter(([piece]) => piece)
      .map(([piece, scope]) => `${piece}:${scope.replace(/\.rs274$/, '')}`);
  }
  return last;
}

const cases: [text: string, ...expected: string[]][] = [
  ['%', '%:keyword.other.tape-mark'],
  ['O1001 (BRACKET)', 'O1001:entity.name.function.program', '(BRACKET):comment.block'],
  [
    'N10 G01 X1.5 F72.',
    'N10:entity.name.label.line-number',
    'G01:keyword.control.motion',
    'X:variable.parameter.axis',
    '1.5:constant.numeric.axis',
    'F72.:entity.name.function.feed',
  ],
  [
    'n10g1x-.5y2',
    'n10:entity.name.label.line-number',
    'g1:keyword.control.motion',
    'x:variable.parameter.axis',
    '-.5:constant.numeric.axis',
    'y:variable.parameter.axis',
    '2:constant.numeric.axis',
  ],
  ['G17 G54.1', 'G17:variable.other.enummember.g-code', 'G54.1:variable.other.enummember.g-code'],
  ['G83 G80', 'G83:keyword.control.motion', 'G80:variable.other.enummember.g-code'],
  ['G10', 'G10:variable.other.enummember.g-code'],
  ['T12M6', 'T12:entity.name.type.tool', 'M6:entity.name.type.tool-spindle'],
  ['S8000 M03', 'S8000:entity.name.type.speed', 'M03:entity.name.type.tool-spindle'],
  [
    'G43 H1 D2',
    'G43:variable.other.enummember.g-code',
    'H1:entity.name.type.tool',
    'D2:entity.name.type.tool',
  ],
  ['/G0', '/:keyword.operator.block-delete', 'G0:keyword.control.motion'],
  ['(G1 X5 T99 never words', '(G1 X5 T99 never words:comment.block'],
  ['M0 ; stop G1', 'M0:variable.other.enummember.m-code', '; stop G1:comment.line.semicolon'],
  [
    '(MSG, CHECK Z)',
    '(:comment.block.message',
    'MSG:keyword.other.message',
    ', CHECK Z:string.unquoted.message',
    '):comment.block.message',
  ],
  [
    '(OK chip-load-low: long tool)',
    '(:comment.block.silence',
    'OK:keyword.other.silence',
    'chip-load-low:entity.name.tag.finding',
    ': long tool):comment.block.silence',
  ],
  ['o100 sub', 'o100:entity.name.function.subprogram', 'sub:keyword.other.flow'],
  ['o<pocket> endsub', 'o<pocket>:entity.name.function.subprogram', 'endsub:keyword.other.flow'],
  [
    '#101=[#102+SIN[30]]',
    '#101:variable.other.parameter',
    '=:keyword.operator',
    '[:punctuation.section.brackets.begin',
    '#102:variable.other.parameter',
    '+:keyword.operator',
    'SIN:support.function.math',
    '[:punctuation.section.brackets.begin',
    '30:constant.numeric',
    ']:punctuation.section.brackets.end',
    ']:punctuation.section.brackets.end',
  ],
  [
    'IF[#1LT5]GOTO20',
    'IF:keyword.other.flow',
    '[:punctuation.section.brackets.begin',
    '#1:variable.other.parameter',
    'LT:keyword.operator.word',
    '5:constant.numeric',
    ']:punctuation.section.brackets.end',
    'GOTO:keyword.other.flow',
    '20:entity.name.label',
  ],
  ['END1', 'END:keyword.other.flow', '1:entity.name.label'],
  [
    'G65 P9010 A1.',
    'G65:variable.other.enummember.g-code',
    'P:variable.other.word',
    '9010:constant.numeric.word',
    'A:variable.parameter.axis',
    '1.:constant.numeric.axis',
  ],
  [
    'G2 I.5 R1',
    'G2:keyword.control.motion',
    'I:variable.other.arc',
    '.5:constant.numeric.arc',
    'R:variable.other.arc',
    '1:constant.numeric.arc',
  ],
  [
    'X#5 Y[1]',
    'X:variable.other.word',
    '#5:variable.other.parameter',
    'Y:variable.other.word',
    '[:punctuation.section.brackets.begin',
    '1:constant.numeric',
    ']:punctuation.section.brackets.end',
  ],
  ['X[1+2\nG1', 'G1:keyword.control.motion'],
];

describe('colouring', () => {
  for (const [text, ...expected] of cases) {
    it(JSON.stringify(text), () => assert.deepEqual(colours(text), expected));
  }
});
