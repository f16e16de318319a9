import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { readOptions, reviewOf } from '../../../server/src/job/open-job.ts';
import { readSheets } from '../../../server/src/job/sheet-reading.ts';
import { hintLines } from '../../../server/src/lsp/hint-lines.ts';
import type { Review } from '../../../server/src/review/review.ts';
import { ProgramText, type Reading, readProgram } from '../../../server/src/rs274/index.ts';

const fixtures = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../../fixtures');

/** A program to edit, with the sheet beside it. */
export interface Subject {
  name: string;
  text: string;
  sheet?: { path: string; text: string };
}

/** Every program of the fixtures; each also many times over, so that it fills many chunks. */
export function subjects(): Subject[] {
  return readdirSync(fixtures, { recursive: true, encoding: 'utf8' })
    .filter(name => /\.(nc|ngc)$/.test(name))
    .sort()
    .flatMap(name => {
      const file = path.join(fixtures, name);
      const text = readFileSync(file, 'latin1');
      const beside = file.replace(/\.(nc|ngc)$/, '.setup.json');
      const sheet = readdirSync(path.dirname(file)).includes(path.basename(beside))
        ? { sheet: { path: beside, text: readFileSync(beside, 'utf8') } }
        : {};
      const body = text.replace(/^%.*$|^\s*M30.*$|^\s*M2\s*$/gm, '');
      const long = body.repeat(Math.ceil(60_000 / body.length));
      return [
        { name, text, ...sheet },
        { name: `${name}, many times`, text: long, ...sheet },
      ];
    });
}

/**
 * Edits a program at random and compares its review with the review of the same text read anew, every `every` edits. The
 * seed decides everything.
 */
export function editAndCompare(subject: Subject, edits: number, every: number, seed: number): void {
  const sheets = readSheets(subject.sheet ? { sheet: subject.sheet } : {});
  const text = ProgramText.fromString(subject.text);
  const first = readProgram(text, readOptions(sheets, {}));
  const options = { ...readOptions(sheets, {}), settled: first.settled };
  const reading = readProgram(text, options);
  const random = randomFrom(seed);
  for (let done = 1; done <= edits; done++) {
    const { start, end, put } = anEdit(text, random);
    reading.apply(start, end, put);
    const edited = reviewOf(reading, sheets, {});
    // Hints are asked for at every edit, and parts and tools are summed, as the editor does, so that what is kept goes stale
    // if it can.
    const { line } = text.positionAt(start);
    const hints = hintLines(edited, 'every', line - 20, line + 20);
    const tools = edited.tools.length;
    if (done % every !== 0) continue;
    const fresh = readProgram(text.copy(), options);
    const anew = reviewOf(fresh, sheets, {});
    const why = `${subject.name}, seed ${seed}, edit ${done}`;
    assert.deepEqual(hints, hintLines(anew, 'every', line - 20, line + 20), why);
    assert.equal(tools, anew.tools.length, why);
    assert.deepEqual(told(edited, reading), told(anew, fresh), why);
  }
}

/** All that a review says, numbers to nine figures: sums over other chunks differ in the last ones. */
export function told(review: Review, reading: Reading): unknown {
  const { program } = review;
  return JSON.parse(
    JSON.stringify(
      {
        findings: review.findings,
        silenced: review.silenced,
        not_checked: review.not_checked,
        parts: program.parts.map(part => ({ ...part, run: [...part.run], kin: undefined, run_hash: 0 })),
        tools: review.tools.map(({ uses, tool, window, ...rest }) => ({
          ...rest,
          uses: uses.length,
          known: tool,
          window: window !== undefined,
        })),
        lines: program.lineCount,
        problems: reading.problems(),
        hints: hintLines(review, 'every', 0, Math.min(program.lineCount, 400)),
        changes: hintLines(review, 'changes', 0, Math.min(program.lineCount, 400)),
      },
      (_, value) => (typeof value === 'number' ? Number(value.toPrecision(9)) : value),
    ),
  );
}

const WORDS = [
  'G0',
  'G1',
  'G2',
  'G3',
  'G20',
  'G21',
  'G17',
  'G18',
  'G90',
  'G91',
  'G80',
  'G81 R2. Z-5.',
  'G96',
  'G97',
]
  .concat([
    'M3',
    'M5',
    'M6',
    'M8',
    'T1',
    'T2',
    'T0303',
    'S500',
    'F100.',
    'F0',
    'X10.',
    'Y-5',
    'Z1.',
    'I2.',
    'R3.',
  ])
  .concat(['(NOTE)', '(OK no-feed: meant)', '; END', 'N10', '%', '/', 'M30', 'G41 D1', 'G40', 'é', '\u2206']);

function anEdit(text: ProgramText, random: () => number): { start: number; end: number; put: string } {
  const pick = (count: number) => Math.floor(random() * count);
  const at = pick(text.length + 1);
  const line = pick(text.lineCount);
  const begin = text.offsetAt({ line, character: 0 });
  const after = text.offsetAt({ line: line + 1, character: 0 });
  switch (pick(9)) {
    case 0:
      return { start: at, end: at, put: String(pick(10)) };
    case 1:
      return { start: at, end: Math.min(text.length, at + 1 + pick(3)), put: '' };
    case 2:
      return { start: at, end: at, put: ` ${WORDS[pick(WORDS.length)]} ` };
    case 3:
      return { start: begin, end: begin, put: `${WORDS[pick(WORDS.length)]} ${WORDS[pick(WORDS.length)]}\n` };
    case 4:
      return { start: begin, end: after, put: '' };
    case 5:
      return { start: at, end: at, put: text.slice(begin, Math.min(text.length, begin + 400)) };
    case 6:
      return { start: at, end: at, put: random() < 0.5 ? '\n' : '\r\n' };
    case 7: {
      const last = text.offsetAt({ line: line + 1 + pick(30), character: 0 });
      return { start: begin, end: text.length > 4_000 ? last : after, put: '' };
    }
    default:
      return { start: begin, end: begin, put: `X${pick(100)}. Y${pick(100)}.\n` };
  }
}

/** Numbers from 0 to 1 by a linear congruence. */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
