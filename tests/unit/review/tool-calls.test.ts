import assert from 'node:assert/strict';
import { mayChangeTool, sameCalls, toolCalls } from '../../../server/src/review/tool-calls.ts';
import { sumWhileReading } from '../../../server/src/review/witness.ts';
import { ProgramText, type Reading, readProgram } from '../../../server/src/rs274/index.ts';

const body = (count: number) => Array.from({ length: count }, (_, i) => `X${i}.5 Y${i % 7}.\n`).join('');
/** Lines 5 to 254 run with T1, 257 to 607 with T2, which is called twice, and those from 609 on with T1 again. */
const PROGRAM = `G21 G90 G17 G54\nT1 M6\nS900 M3\nG0 Z5.\nG1 F200.\n${body(250)}(FINISH)\nT2 M6\n${body(200)}T2 M6\n${body(150)}T1 M6\n${body(150)}M30\n`;

function read(piece_bytes = 600): Reading {
  const text = ProgramText.inPiecesOf(piece_bytes, PROGRAM);
  return readProgram(text, { dialect: 'ngc', kind: 'mill', witness: sumWhileReading });
}

interface Edit {
  why: string;
  line: number;
  put: string;
  same: boolean;
}

const EDITS: readonly Edit[] = [
  { why: 'a figure', line: 120, put: '1', same: true },
  { why: 'a feed that holds from there on', line: 120, put: 'F90. ', same: false },
  { why: 'a word nobody knows', line: 120, put: 'Q', same: true },
  { why: 'a line more', line: 120, put: '\n', same: false },
  { why: 'a comment', line: 120, put: '(T1 D5.)', same: false },
  { why: 'a comment begun', line: 120, put: '(', same: false },
  { why: 'a call', line: 120, put: 'T3 M6 ', same: false },
  { why: 'a tool made ready', line: 120, put: 'T3 ', same: false },
  { why: 'before the same tool is called again', line: 350, put: '1', same: true },
  { why: 'the call itself', line: 256, put: '1', same: false },
  { why: 'after all calls', line: 700, put: '1', same: true },
];

describe('tools taken over from the review before', () => {
  for (const { why, line, put, same } of EDITS)
    it(`${same ? 'can be' : 'cannot be'}: ${why}`, () => {
      const reading = read();
      const before = reading.stretches;
      const calls = toolCalls(reading);
      const at = reading.text.offsetAt({ line, character: put.trim() === put ? 1 : 0 });
      reading.apply(at, at, put);
      assert.equal(sameCalls(reading, before), same);
      if (same) assert.deepEqual(toolCalls(reading), calls);
    });

  it('cannot be where a review was left out between two edits', () => {
    const reading = read();
    const before = reading.stretches;
    for (const line of [120, 130]) {
      const at = reading.text.offsetAt({ line, character: 1 });
      reading.apply(at, at, '1');
    }
    assert.equal(sameCalls(reading, before), false);
  });

  it('knows where the screen changes no tool', () => {
    const reading = read(160);
    const lines = Array.from({ length: reading.lineCount - 1 }, (_, line) => line);
    const changed = toolCalls(reading).changes.map(({ line }) => line);
    const told = lines.filter(line => !mayChangeTool(reading, line, line));
    assert.deepEqual(
      told.filter(line => changed.includes(line)),
      [],
    );
    assert.ok(told.length > lines.length / 2, `${told.length} of ${lines.length}`);
  });
});
