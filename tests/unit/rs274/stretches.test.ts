import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { CHUNK_BYTES } from '../../../server/src/rs274/chunk.ts';
import { ProgramText, type Reading, type ReadOptions, readProgram } from '../../../server/src/rs274/index.ts';

/** Everything a reading tells, in a form that can be compared. */
function told(reading: Reading): string[] {
  const rows: string[] = [];
  const cursor = reading.cursor();
  while (cursor.next()) {
    const { line, kind, flags, x0, y0, z0, x, y, z, sweep_rad, seconds } = cursor;
    const run = (['tool', 'feed', 'spindle', 'motion', 'frame', 'inch', 'lead'] as const).map(f =>
      cursor.run(f),
    );
    rows.push([line, kind, flags, x0, y0, z0, x, y, z, sweep_rad, seconds, ...run].join(' '));
  }
  for (const p of reading.problems()) rows.push(`${p.line} ${p.start} ${p.end} ${p.code} ${p.message}`);
  rows.push(String(reading.end.v.map(value => (Object.is(value, -0) ? 0 : value))));
  return rows;
}

/** The steps of the lines before one. */
function toldTo(reading: Reading, line: number): string[] {
  return told(reading).filter(row => /^\d+ \d/.test(row) && Number(row.split(' ')[0]) < line);
}

const HEAD = '%\nO12\nG21 G17 G90 G94 G54\nT1 M6\nS5000 M3\nG0 X0 Y0\nG43 H1 Z5.\nG1 Z-1. F300.\n';

/** A long finishing program of plain lines with some others among them. */
function longProgram(lines: number, seed = 1): string {
  let state = seed;
  const random = () => {
    state = (state * 1664525 + 1013904223) >>> 0;
    return state / 4294967296;
  };
  const out: string[] = [];
  for (let i = 0; i < lines; i += 1) {
    const x = (random() * 100).toFixed(3);
    const y = (random() * 100).toFixed(3);
    const pick = random();
    if (pick < 0.3) out.push(`G1 X${x} Y${y}`, `X${y}`);
    else if (pick < 0.9) out.push(`G01X${x}Y${y}`);
    else if (pick < 0.93) out.push(`G1 X${x} F${Math.round(random() * 5) * 100 + 100}.`);
    else if (pick < 0.95) out.push(`G2 X${x} Y${y} R500.`);
    else if (pick < 0.97) out.push(`G0 Z${x}`, `G1 Z-${y}`);
    else if (pick < 0.98) out.push('(NEXT PASS)');
    else out.push(`N${i} G3 I5. J0`);
  }
  return `${HEAD}${out.join('\n')}\nM5\nM30\n%\n`;
}

describe('rs274: stretches', () => {
  const text = longProgram(20_000);

  it('holds a long program in many chunks and reads each once', () => {
    const reading = readProgram(ProgramText.inPiecesOf(CHUNK_BYTES, text));
    assert.ok(reading.stretches.length > 25);
    assert.equal(reading.ran, reading.stretches.length);
    assert.deepEqual(reading.problems(), []);
  });

  it('keeps the seconds of a dwell with its own stretch', () => {
    const reading = readProgram(ProgramText.fromString(text.replace('\nM5\n', '\nG4 P500\nM5\n')));
    const counts = reading.stretches.map(stretch => stretch.steps.seconds.size);
    assert.deepEqual(
      counts,
      counts.map((_, index) => (index === counts.length - 1 ? 1 : 0)),
    );
  });

  it('gives the same steps wherever the text is cut', () => {
    const narrow = readProgram(ProgramText.fromString(text));
    const apart = readProgram(ProgramText.inPiecesOf(500, text), { settled: narrow.settled });
    const whole = readProgram(ProgramText.inPiecesOf(text.length, text), { settled: narrow.settled });
    assert.equal(whole.stretches.length, 1);
    assert.deepEqual(told(narrow), told(whole));
    assert.deepEqual(told(apart), told(whole));
  });

  it('reads at most 3 chunks again for an edit in the middle', () => {
    const program = ProgramText.inPiecesOf(CHUNK_BYTES, text);
    const reading = readProgram(program);
    const at = program.offsetAt({ line: 10_000, character: 1 });
    reading.apply(at, at, '1');
    assert.ok(reading.ran <= 3, `${reading.ran} chunks`);
    reading.apply(at, at + 1, '');
    assert.ok(reading.ran <= 3, `${reading.ran} chunks`);
    assert.deepEqual(told(reading), told(readProgram(ProgramText.fromString(text))));
  });

  it('cuts a chunk as it was opened into small ones at its first edit', () => {
    const program = ProgramText.fromString(text);
    const reading = readProgram(program);
    const opened = reading.stretches.length;
    const at = program.offsetAt({ line: 10_000, character: 1 });
    reading.apply(at, at, '1');
    assert.ok(reading.ran > 8 && reading.ran <= 20, `${reading.ran} chunks`);
    assert.ok(reading.stretches.length > opened + 2);
    reading.apply(at, at + 1, '');
    assert.ok(reading.ran <= 3, `${reading.ran} chunks`);
    assert.deepEqual(told(reading), told(readProgram(ProgramText.fromString(text))));
  });

  it('reads everything again when the units of line 3 change', () => {
    const program = ProgramText.fromString(text);
    const reading = readProgram(program);
    const at = program.offsetAt({ line: 2, character: 2 });
    reading.apply(at, at + 1, '0');
    assert.equal(reading.ran, reading.stretches.length);
    const fresh = readProgram(ProgramText.fromString(program.getText()), { settled: reading.settled });
    assert.deepEqual(told(reading), told(fresh));
  });

  it('pauses when it is told to, is right up to there, and goes on', () => {
    const program = ProgramText.inPiecesOf(CHUNK_BYTES, text);
    const reading = readProgram(program);
    const at = program.offsetAt({ line: 2, character: 2 });
    program.edit(at, at + 1, '0');
    reading.refresh(line => line > 600);
    assert.equal(reading.whole, false);
    assert.ok(reading.rightLines > 600 && reading.rightLines < 1200, `${reading.rightLines} lines`);
    assert.ok(reading.keeps(['tool', 'ended']));
    assert.ok(!reading.keeps(['inch']));
    const fresh = readProgram(program.copy(), { settled: reading.settled });
    assert.deepEqual(toldTo(reading, reading.rightLines), toldTo(fresh, reading.rightLines));
    let turns = 0;
    for (; !reading.whole; turns += 1) reading.refresh(() => reading.ran > 0);
    assert.ok(turns > 20, `${turns} turns`);
    assert.deepEqual(told(reading), told(fresh));
  });

  it('goes the short and the long way to the same moves', () => {
    const fast = readProgram(ProgramText.fromString(text));
    const slow = readProgram(ProgramText.fromString(text), { slow_only: true });
    assert.deepEqual(rounded(told(fast)), rounded(told(slow)));
  });

  const PIECES = [
    'G1 X1. Y2.\n',
    'G91\n',
    'G90\n',
    'G20\n',
    'G21\n',
    'X',
    '\n',
    '\r\n',
    '\r',
    '(',
    ')',
    'M30\n',
    'G81 Z-5. R1.\n',
    'G80\n',
    'F200.',
    'N100',
    'G55\n',
    'T3 M6\n',
    '/',
    ';',
    'é€',
    '%\n',
    'G2 X5. Y5. R3.\n',
    'G52 X1.\n',
    '9',
    '.',
    '-',
    'G71 U1. R1.\nG71 P1 Q2 U1. F.1\n',
    '#1=2\n',
    'M98 P12\n',
    'O5\n',
    'G41 D1\n',
    'G40\n',
    'G68 X0 Y0 R30.\n',
    'G69\n',
    'G42\n',
    'T0202\n',
    'G28 U0. W0.\n',
    'G10 P1 R0.4 Q3\n',
    'G70 P1 Q2\n',
    'G5.2 X1 Y2 L3\n',
    'G5.3\n',
    'G28.1\n',
    'G28\n',
    ',A30.',
  ];

  it('equals a fresh reading after 500 random edits', () => {
    const edits = fc.array(
      fc.record({
        at: fc.nat(),
        cut: fc.nat(60),
        put: fc.constantFrom(...PIECES),
        times: fc.integer({ min: 0, max: 3 }),
      }),
      { minLength: 10, maxLength: 10 },
    );
    fc.assert(
      fc.property(edits, fc.constantFrom(...Object.keys(SOURCES)), (list, name) => {
        const { source, options } = SOURCES[name];
        const program = ProgramText.fromString(source);
        const settled = readProgram(program, options).settled;
        const reading = readProgram(program, { ...options, settled });
        let plain = source;
        for (const { at, cut, put, times } of list) {
          const start = at % (plain.length + 1);
          const end = Math.min(plain.length, start + cut);
          const piece = put.repeat(times);
          plain = plain.slice(0, start) + piece + plain.slice(end);
          // Now and then it pauses, and the next edit comes before it is done.
          if (times === 0) reading.apply(start, end, piece);
          else {
            program.edit(start, end, piece);
            reading.refresh(() => reading.ran > 0);
            if (times === 2) reading.refresh(() => reading.ran > 1);
          }
        }
        while (!reading.whole) reading.refresh(() => reading.ran > 0);
        assert.equal(program.getText(), plain);
        const fresh = readProgram(ProgramText.fromString(plain), { ...options, settled });
        assert.deepEqual(told(reading), told(fresh));
      }),
      { numRuns: 50, seed: 20, endOnFailure: true },
    );
  });
});

const FOLDER = join(import.meta.dirname, 'programs');
const SOURCES: Record<string, { source: string; options: ReadOptions }> = {
  long: { source: longProgram(2500, 7), options: {} },
  edge: {
    source: longProgram(600, 3).replace('G1 Z-1. F300.\n', 'G1 Z-1. F300.\nG41 D1 X5. Y5.\n'),
    options: { compensation: 'part-edge', toolDiameter_mm: () => 6 },
  },
  nose: {
    source: `G21 G18 G98 F100 T0101\nG0 X50. Z5.\nG42 G1 Z0.\n${turned(700)}G40 X99.\nM30\n`,
    options: {
      dialect: 'lathe-a',
      kind: 'lathe',
      compensation: 'part-edge',
      toolNose: (_offset, tool) => ({ radius_mm: 0.2 * tool, tip: 3 }),
    },
  },
  report: { source: longProgram(600, 5), options: { dialect: 'ngc', kind: 'mill' } },
};

/** A turned profile of steps and tapers, with profile blocks N1 to N2 in it. */
function turned(lines: number): string {
  return Array.from({ length: lines }, (_, n) => {
    const [x, z] = [50 + n * 0.8 + (n % 3), -n * 1.5 - (n % 2)];
    const word = n % 7 === 3 ? 'G3' : n % 7 === 5 ? 'G2' : 'G1';
    return `${n === 20 ? 'N1 ' : n === 26 ? 'N2 ' : ''}${word} X${x} Z${z}${word === 'G1' ? '' : ' R20.'}\n`;
  }).join('');
}

for (const file of readdirSync(FOLDER).filter(name => /\.n/.test(name))) {
  SOURCES[file] = { source: readFileSync(join(FOLDER, file), 'latin1'), options: {} };
}

/** Numbers to 9 places: the two ways may differ in the last bit of an arc. */
function rounded(rows: string[]): string[] {
  return rows.map(row => row.replace(/-?\d+\.\d+(e-?\d+)?/g, number => Number(number).toFixed(9)));
}
