import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { API_PAGE, cuttingApiPage, functionPages, lacking } from '../../../server/scripts/cutting-api.ts';
import { QUANTITIES } from '../../../server/src/cutting/index.ts';
import { FUNCTIONS } from './odd-inputs.ts';

describe('pages of the cutting library', () => {
  const pages = functionPages();

  it('has one page for each exported function', () => {
    const names = FUNCTIONS.map(([name]) => name).sort();
    assert.deepEqual(pages.map(page => page.name).sort(), names);
  });

  for (const page of pages) {
    it(`${page.name} tells purpose, formula, units, range, source`, () =>
      assert.deepEqual(lacking(page), []));
  }

  it('notices what a page lacks', () => {
    const bare = { name: 'chipLoad', file: 'feeds.ts', purpose: '', tags: { formula: 'f', units: 'mm' } };
    assert.deepEqual(lacking(bare), ['purpose', 'range', 'source']);
  });

  it('is fresh (else: npx tsx server/scripts/cutting-api.ts)', () => {
    assert.equal(readFileSync(API_PAGE, 'utf8'), cuttingApiPage());
  });

  it('fills every field of every quantity', () => {
    for (const [name, quantity] of Object.entries(QUANTITIES)) {
      for (const [field, text] of Object.entries(quantity)) assert.notEqual(text, '', `${name}.${field}`);
    }
  });

  it('imports nothing from outside its own room', () => {
    const room = 'server/src/cutting';
    for (const file of readdirSync(room).filter(name => name.endsWith('.ts'))) {
      const text = readFileSync(`${room}/${file}`, 'utf8');
      for (const [, from] of text.matchAll(/from '([^']+)'/g))
        assert.match(from!, /^\.\/[a-z-]+\.ts$/, `${file}: ${from}`);
    }
  });
});
