import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ProgramText, readProgram, type StepTable, type Stretch } from '../../../server/src/rs274/index.ts';

/** Everything that a table holds, as numbers. */
function told(table: StepTable): unknown[] {
  const { count, runCount, arcCount, rotaryCount } = table;
  return [
    { count, runCount, arcCount, rotaryCount },
    ...[table.x, table.y, table.z, table.line, table.kind, table.flags, table.run].map(c => [
      ...c.slice(0, count),
    ]),
    [...table.arcs.slice(0, 3 * arcCount)],
    arcCount > 0 ? [...table.aux.slice(0, count)] : [],
    table.rotary === null ? null : [...table.rotary.slice(0, count)],
    [...table.rotaries.slice(0, 6 * rotaryCount)],
    [...table.seconds],
    [...table.files],
  ];
}

const ROOT = join(import.meta.dirname, '../../..');

/** Programs of plain stretches; one with control flow is a single table that is kept. */
function programs(): { file: string; text: string }[] {
  return ['fixtures', 'tests/unit/rs274/programs']
    .flatMap(folder =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
        .filter(name => /\.n(c|gc)$/.test(name))
        .map(name => join(folder, name)),
    )
    .map(file => ({ file, text: readFileSync(join(ROOT, file), 'latin1') }))
    .filter(({ text }) => !readProgram(ProgramText.fromString(text)).needs_flow);
}

describe('rs274: steps that are recalled', () => {
  for (const { file, text } of programs()) {
    it(`are those that were read: ${file}`, () => {
      const read = new Map<Stretch, unknown[]>();
      const witness = (stretch: Stretch, steps: StepTable) => void read.set(stretch, told(steps));
      const reading = readProgram(ProgramText.inPiecesOf(300, text), { witness });
      // Backwards, and twice: the tables looked at last keep their steps.
      const { stretches } = reading;
      for (const stretch of [...stretches].reverse())
        assert.deepEqual(told(stretch.steps), read.get(stretch));
      readProgram(ProgramText.inPiecesOf(300, text));
      for (const stretch of stretches) assert.deepEqual(told(stretch.steps), read.get(stretch));
    });
  }
});
