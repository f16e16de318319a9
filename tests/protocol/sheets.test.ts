import assert from 'node:assert/strict';
import { fixture, problemScreen, sameScreen } from './screens.ts';
import { inSession, type Session } from './session.ts';

const PROGRAM = (feed: string) =>
  `%\nG20 G17 G40 G49 G80 G90 G94\nT2 M6\nS8000 M3\nG54 G0 X-.5 Y0.\nG43 H2 Z1.\nG1 Z-.25 F30.\nX4. F${feed}\nG0 Z1.\nM30\n%\n`;
const CRIB = (teeth: number) =>
  `{ "units": "inch", "machines": { "mill-1": { "kind": "mill", "standing": { "2": "em" } } }, "tools": { "em": { "kind": "end-mill", "diameter": "1/2 in", "teeth": ${teeth} } } }\n`;

async function hints(session: Session, uri: string): Promise<string> {
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const found = await session.ask<{ label: string | { value: string }[] }[]>('inlayHint', uri, { range });
  return found
    .map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')))
    .join(' | ');
}

describe('sheets and cribs over the protocol', () => {
  it('a malformed sheet says where, and the program is reviewed all the same', () => {
    const sheet = `{
  "units": "inch",
  "machine": { "kind": "mil" "dialect": "iso6983" },
  "toolz": {},
  "tools": { "2": { "kind": "end-mill", "diameter": "half", "teeth": 3 } }
`;
    const files = { 'plate.nc': PROGRAM('72.'), 'plate.setup.json': sheet };
    return inSession(files, async session => {
      const uri = await session.open('plate.nc');
      await session.settled(uri);
      const sheet_uri = await session.open('plate.setup.json', 'jsonc');
      await session.until(() => (session.diagnostics.get(sheet_uri)?.length ?? 0) > 0, 'problems');
      sameScreen('problems-malformed-sheet', problemScreen(sheet, session.diagnostics.get(sheet_uri) ?? []));
      assert.match(await hints(session, uri), /0\.0030 in\/tooth/);
    });
  });

  it('any bytes may be a sheet', () =>
    inSession({ 'plate.nc': PROGRAM('72.'), 'plate.setup.json': '' }, async session => {
      const uri = await session.open('plate.nc');
      const sheet = await session.open('plate.setup.json', 'jsonc');
      for (const text of [
        '',
        '[]',
        'null',
        '{"tools": 7}',
        '\u0000\ufffd{',
        '{"a":'.repeat(500),
        '"'.repeat(99),
      ]) {
        await session.change(sheet, [{ text }]);
        await session.settled(uri);
      }
      assert.match(await hints(session, uri), /which tool|in\/rev/);
    }));

  it('an edit of an open sheet, not saved, changes the program beside it at once', () => {
    const sheet =
      '{ "units": "inch", "tools": { "2": { "kind": "end-mill", "diameter": 0.5, "teeth": 3 } } }\n';
    return inSession({ 'plate.nc': PROGRAM('72.'), 'plate.setup.json': sheet }, async session => {
      const uri = await session.open('plate.nc');
      await session.settled(uri);
      assert.match(await hints(session, uri), /0\.0030 in\/tooth/);
      const open = await session.open('plate.setup.json', 'jsonc');
      const teeth = sheet.indexOf('"teeth": 3') + 9;
      await session.edit(open, [0, teeth], [0, teeth + 1], '6');
      await session.settled(uri);
      assert.match(await hints(session, uri), /0\.0015 in\/tooth/);
      await session.shut(open);
      await session.settled(uri);
    });
  });

  it('several programs share a crib: one edit of it changes all', () => {
    const files = { 'one.nc': PROGRAM('72.'), 'job/two.nc': PROGRAM('60.'), 'crib.json': CRIB(3) };
    return inSession(files, async session => {
      const one = await session.open('one.nc');
      const two = await session.open('job/two.nc');
      await session.settled(one);
      await session.settled(two);
      assert.match(await hints(session, one), /0\.0030 in\/tooth/);
      assert.match(await hints(session, two), /0\.0025 in\/tooth/);
      const crib = await session.open('crib.json', 'jsonc');
      await session.change(crib, [{ text: CRIB(6) }]);
      await session.settled(one);
      await session.settled(two);
      assert.match(await hints(session, one), /0\.0015 in\/tooth/);
      assert.match(await hints(session, two), /0\.0013 in\/tooth/);
    });
  });

  it('a sheet that appears on the disk is taken when the editor says so', () => {
    const files: Record<string, string> = { 'bracket.nc': fixture('bracket/bracket.nc') };
    return inSession(files, async session => {
      const uri = await session.open('bracket.nc');
      await session.settled(uri);
      assert.match(session.status.get(uri)?.text ?? '', /no setup sheet/);
      files['bracket.setup.json'] = fixture('bracket/bracket.setup.json');
      session.status.clear();
      await session.connection.sendNotification('tapeproof/recheckFiles', {});
      await session.settled(uri);
      assert.doesNotMatch(session.status.get(uri)?.text ?? '', /no setup sheet/);
    });
  });
});
