import assert from 'node:assert/strict';
import fc from 'fast-check';
import { counts } from '../../../server/src/setup/comment-drops.ts';
import { patterns, speeds } from '../../../server/src/setup/comment-labels.ts';
import type { WordedPattern } from '../../../server/src/setup/comment-scan.ts';
import {
  coatingWords,
  kindWords,
  leftHandWords,
  substrateWords,
  vagueWords,
} from '../../../server/src/setup/tool-words.ts';

const TABLES: Readonly<Record<string, readonly WordedPattern[]>> = {
  'kinds of tools': kindWords.map(([pattern]) => pattern),
  'tool materials': substrateWords.map(([pattern]) => pattern),
  'coatings, hands, doubts': [coatingWords, leftHandWords, vagueWords],
  'named sizes': Object.values(patterns),
  speeds: Object.values(speeds),
  counts,
};

/** A pattern without what it asks of the text around a match, which nobody can make up texts for. */
function bare({ source }: RegExp): RegExp {
  let text = source.replace(/\(\?<\w+>/g, '(?:');
  for (let before = ''; before !== text; ) {
    before = text;
    text = text.replace(/\(\?<?[!=](?:[^()\\]|\\.|\[[^\]]*\]|\((?!\?<?[!=])(?:[^()\\]|\\.)*\))*\)/g, '');
  }
  return new RegExp(text);
}

/** Every text that a pattern matches holds one of the words that are looked for first. */
describe('patterns that are tried only where one of their words stands', () => {
  for (const [table, rows] of Object.entries(TABLES))
    it(table, () => {
      for (const { pattern, words } of rows) {
        let matched = 0;
        fc.assert(
          fc.property(fc.stringMatching(bare(pattern)), text => {
            const match = pattern.exec(text);
            if (match === null) return;
            matched++;
            assert.ok(
              words.some(word => match[0].includes(word)),
              `${pattern.source} matches '${text}', which holds none of ${words.join(', ')}`,
            );
          }),
          { numRuns: 200, seed: 5 },
        );
        assert.ok(matched > 0, `${pattern.source}: no text of 200 matched`);
      }
    });
});
