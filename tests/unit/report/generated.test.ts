import assert from 'node:assert/strict';
import path from 'node:path';
import { generatedFiles, staleFiles, writeStale } from '../../../server/scripts/generate.ts';
import { rules } from '../../../server/src/review/rules/index.ts';

describe('what is made from tables', () => {
  it('is fresh', () => {
    if (process.env.UPDATE === '1') writeStale();
    const stale = staleFiles().map(([file]) => path.basename(file));
    assert.deepEqual(
      stale,
      [],
      'stale: run npm run generate, or this test with UPDATE=1, and commit what it writes',
    );
  });

  it('names every rule in the manual', () => {
    const page = [...generatedFiles()].find(([file]) => path.basename(file) === 'findings.md')?.[1] ?? '';
    for (const { code } of rules) {
      assert.ok(page.includes(`\n### ${code}\n`), code);
      assert.ok(page.includes(`(#${code})`), code);
    }
  });

  it('names no place outside', () => {
    for (const [file, text] of generatedFiles())
      if (file.includes('manual')) assert.doesNotMatch(text, /https?:|\/work\/|\/tmp\//, path.basename(file));
  });
});
