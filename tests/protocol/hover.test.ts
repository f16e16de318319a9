import assert from 'node:assert/strict';
import { job, sameScreen } from './screens.ts';
import { inSession } from './session.ts';

interface Hover {
  contents: { kind: string; value: string };
  range?: { start: { character: number }; end: { character: number } };
}

/** Longer than this and no one reads it at a glance. */
const MOST_CHARACTERS = 4000;

/** Where the cursor stands: the text of a block, and in it the word. */
const PLACES: Record<string, readonly [about: string, block: string, word: string][]> = {
  bracket: [
    ['a tool change', 'N20 T2 M6', 'T2'],
    ['a block that cuts, at its feed', 'G41 D2 X-.1 Y-.1 F72.', 'F72.'],
    ['a drilling cycle, at its peck', 'G99 G83 Z-.75 R.1 Q.2 F25.', 'Q.2'],
    ['a tap', 'N40 T4 M6', 'M6'],
    ['a rapid, at its code', 'G54 G0 X-.5 Y-.35', 'G0'],
    ['a comment', '(PROFILE)', 'PROFILE'],
  ],
  valve: [
    ['a tool change', 'N20 T1 M6', 'T1'],
    ['a block that cuts, at an axis', 'N150 X55. F340.', 'X55.'],
  ],
  bushing: [
    ['a turret call', 'N20 T0101', 'T0101'],
    ['a facing cut', 'N60 G1 X-1.6 F0.2', 'G1'],
  ],
};

describe('hover over the protocol', () => {
  for (const [name, places] of Object.entries(PLACES)) {
    for (const withSheet of [true, false]) {
      it(`${name} ${withSheet ? 'with its sheet' : 'without a sheet'}`, () => {
        const files = job(name, withSheet);
        return inSession(files, async session => {
          const uri = await session.open(`${name}.nc`);
          await session.settled(uri);
          const parts: string[] = [];
          for (const [about, block, word] of places) {
            const line = files[`${name}.nc`].split('\n').indexOf(block);
            const character = block.indexOf(word);
            assert.ok(line >= 0 && character >= 0, `${block} is not in ${name}`);
            const hover = await session.ask<Hover | null>('hover', uri, { position: { line, character } });
            const text = hover?.contents.value ?? 'nothing';
            assert.ok(text.length < MOST_CHARACTERS, `${text.length} characters at ${block}`);
            parts.push(`##### ${about}: ${block} at ${word}\n${text}`);
          }
          sameScreen(`hover-${name}-${withSheet ? 'with-its-sheet' : 'without-a-sheet'}`, parts.join('\n\n'));
        });
      });
    }
  }

  it('of a program that is not open is nothing', () =>
    inSession({}, async session => {
      const position = { line: 0, character: 0 };
      assert.equal(await session.ask('hover', session.uri('no.nc'), { position }), null);
    }));
});
