import assert from 'node:assert/strict';
import {
  ProgramText,
  type ReadOptions,
  readProgram,
  STEP_FLAG,
  STEP_KINDS,
} from '../../../server/src/rs274/index.ts';
import { check } from './check.ts';

const EDGE: ReadOptions = {
  dialect: 'iso6983',
  kind: 'mill',
  compensation: 'part-edge',
  toolDiameter_mm: () => 10,
};

const SQUARE = `G21 G17 G90 G94 G40
T1 M6
S3000 M3
G0 X-30. Y-30. Z-1.
G41 D1 G1 X0. Y-10. F300.
Y50.
X50.
Y0.
X-20.
G40 X-30. Y-30.
M30
`;

describe('rs274: compensated moves', () => {
  it('goes round a square of 50 mm with a tool of 10 mm: 4 x 50 + 2 pi 5 along the sides and corners', () => {
    // Issue figure: 4 x 50 + 2 pi 5 = 231.4159265; three corners are arcs here, the fourth is where it leads in and out.
    const reading = readProgram(ProgramText.fromString(SQUARE), EDGE);
    assert.deepEqual(reading.problems(), []);
    const cursor = reading.cursor();
    let sides = 0;
    let corners = 0;
    while (cursor.next()) {
      if ((cursor.flags & STEP_FLAG.compensated) === 0) continue;
      if ((cursor.flags & STEP_FLAG.corner) !== 0) corners += cursor.length_mm;
      else if (cursor.line >= 5 && cursor.line <= 8) sides += cursor.length_mm;
    }
    assert.ok(Math.abs(corners - (3 * Math.PI * 5) / 2) < 1e-9, String(corners));
    assert.ok(Math.abs(sides - (60 + 50 + 50 + 70)) < 1e-9, String(sides));
  });

  it('writes moves on the line of their block and inserted corners on the block before', () => {
    const reading = readProgram(ProgramText.fromString(SQUARE), EDGE);
    const rows: string[] = [];
    const cursor = reading.cursor();
    while (cursor.next()) {
      if (cursor.line >= 4)
        rows.push(
          `${cursor.line + 1} ${STEP_KINDS[cursor.kind]} ${cursor.x.toFixed(3)} ${cursor.y.toFixed(3)}`,
        );
    }
    assert.deepEqual(rows, [
      '5 feed -5.000 -10.000',
      '6 feed -5.000 50.000',
      '6 arc 0.000 55.000',
      '7 feed 50.000 55.000',
      '7 arc 55.000 50.000',
      '8 feed 55.000 0.000',
      '8 arc 50.000 -5.000',
      '9 feed -20.000 -5.000',
      '10 feed -30.000 -30.000',
      '11 end -30.000 -30.000',
    ]);
  });

  it('takes the programmed path where nothing says what the program is', () => {
    const reading = readProgram(ProgramText.fromString(SQUARE), { ...EDGE, compensation: undefined });
    assert.deepEqual(
      reading.assumptions().map(assumed => assumed.code),
      ['compensation-not-modelled'],
    );
    check(
      `
    G21 G17 G90 G94
    G0 X0 Y0 Z0
    G41 D1 G1 X10. F100.  => feed 10 0 0 length=10; compensation=41
    G40 X0                => feed 0 0 0; compensation=40
    `,
      { ...EDGE, compensation: 'wear-only' },
    );
  });

  it('says so when the tool does not fit', () => {
    check(
      `
    G21 G17 G90 G94
    G0 X0 Y-20. Z0
    G41 D1 G1 Y0 F100.
    Y20.
    G3 X-4. R2.        => !comp-arc-too-small
    G1 Y0
    G40 Y-20.
    M30
    `,
      { ...EDGE, toolDiameter_mm: () => 10, dialect: 'iso6983' },
    );
  });

  it('reads incremental moves from the programmed point', () => {
    check(
      `
    G21 G17 G90 G94
    G0 X0 Y-20. Z0
    G41 D1 G1 Y0 F100.
    G91 Y20.             => feed -5 20 0; arc 0 25 0
    X20.                 => feed 20 25 0; arc 25 20 0
    Y-40.                => feed 25 -20 0
    G40 X-20.            => feed 0 -20 0
    M30
    `,
      EDGE,
    );
  });

  it('keeps the tail of a path that crosses chunks, and sends it at the end of the text', () => {
    const around = Array.from({ length: 16_000 }, (_, i) => `X${(i % 7) + 1}. Y${i + 1}.`);
    const source = `G21 G17 G90 G94\nG0 X0 Y0 Z0\nG42 D1 G1 X1. Y-5. F100.\n${around.join('\n')}`;
    const reading = readProgram(ProgramText.fromString(source), { ...EDGE, toolDiameter_mm: () => 0.1 });
    assert.ok(reading.stretches.length > 1);
    const cursor = reading.cursor();
    const lines = new Set<number>();
    while (cursor.next()) if (cursor.kind <= 2) lines.add(cursor.line);
    assert.equal(lines.size, 16_000 + 2);
    assert.equal(Math.max(...lines), 16_002);
  });
});
