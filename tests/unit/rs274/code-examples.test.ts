import assert from 'node:assert/strict';
import {
  CODES,
  codeFor,
  codeName,
  KIND,
  MACHINE_KINDS,
  ProgramText,
  readProgram,
} from '../../../server/src/rs274/index.ts';

/** Known position, feed, speed and tool before the example. */
const BEFORE = 'T1 M6\nS1000 M3\nF100\nG0 X100. Y100. Z100.\n';
const LATHE_BEFORE = 'T0101\nG97 S1000 M3\nF0.2\nG0 X100. Z100.\n';
/** Examples that only make sense with something around them. */
const AROUND: Record<string, { before?: string; after?: string }> = {
  'G5.2': { before: 'G17\n', after: 'X101. Y100.\nX102. Y99.\nG5.3\n' },
  'G5.3': { before: 'G17\nG5.2 X101. Y100.\nX102. Y100.\n' },
  G70: { after: 'N100 G0 X20.\nG1 Z-10.\nN160 X40.\n' },
  G71: { after: 'N100 G0 X20.\nG1 Z-10.\nN160 X40.\n' },
  G72: { after: 'N100 G0 Z-10.\nG1 X20.\nN160 Z0.\n' },
  G73: { after: 'N100 G0 X20.\nG1 Z-10.\nN160 X40.\n' },
  G74: { after: 'N100 G0 Z-10.\nG1 X20.\nN160 Z0.\n' },
  G75: { after: 'N100 G0 X20.\nG1 Z-10.\nN160 X40.\n' },
};
/** Rows that end or call something: what follows them is not run. */
const ENDS = new Set(['M2', 'M30', 'M99', 'M98', 'M97', 'M198', 'G65', 'G66']);

describe('every code of the table, as its example writes it', () => {
  for (const row of CODES) {
    for (const dialect of row.dialects) {
      for (const kind of row.kind === undefined ? MACHINE_KINDS : [row.kind]) {
        if (dialect.startsWith('lathe') !== (kind === 'lathe') && dialect !== 'ngc') continue;
        if (codeFor(row.letter, row.number, dialect, kind) !== row) continue;
        const name = codeName(row);
        it(`${name} ${row.means} in ${dialect} on a ${kind}`, () => {
          const lathe = dialect.startsWith('lathe');
          const { before = '', after = '' } = AROUND[name] ?? {};
          const head = (lathe ? LATHE_BEFORE : BEFORE) + before;
          const text = `${head}${row.example}\n${after}G0 X50.\n`;
          const reading = readProgram(ProgramText.fromString(text), { dialect, kind, units: 'mm' });
          const line = head.split('\n').length - 1;
          const here = reading.problems().filter(problem => problem.line === line);
          assert.ok(!here.some(({ code }) => code === 'code-unknown'), JSON.stringify(here));
          const said = here.some(({ code }) => code === 'not-followed');
          if (row.effect === 'not-followed') assert.ok(said, 'it must be said that it is not followed');
          else if (said)
            assert.match(
              here.map(({ message }) => message).join(),
              /subroutine|part of/,
              JSON.stringify(here),
            );
          if (ENDS.has(name)) return;
          if (row.motion === 'moves')
            assert.ok(reading.stepsOfLine(line).next(), `${row.example} moves nothing`);
          if (row.motion !== 'none') return;
          // Words of a code without motion move nothing.
          const cursor = reading.stepsOfLine(line);
          const alone = !/G[012]\b/.test(row.example.replace(name, ''));
          while (cursor.next()) {
            if (!alone) break;
            const moves = cursor.kind <= KIND.tap;
            const carries_axes = ['G43', 'G44', 'G91', 'G93', 'G49', 'G40'].includes(name);
            assert.ok(!moves || carries_axes, `${row.example} moves to ${cursor.x} ${cursor.y} ${cursor.z}`);
          }
        });
      }
    }
  }
});
