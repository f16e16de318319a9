import assert from 'node:assert/strict';
import type { Answer } from '../../server/src/lsp/protocol.ts';
import { inSession } from './session.ts';

const HEAD = 'G21 G90 G94 G17\n(T1 ENDMILL D10 4FL)\nT1 M6\nS5000 M3\nG0 X0 Y0 Z5.\nG1 Z-1. F300\n';
const TAIL = 'G0 Z5.\nM5\nM30\n';
const linesOf = (count: number) => HEAD + 'X1.\nX2.\n'.repeat(count / 2) + TAIL;

interface Hint {
  position: { line: number };
  label: string | { value: string }[];
}

const words = (label: Hint['label']) =>
  typeof label === 'string' ? label : label.map(({ value }) => value).join('');

describe('large programs over the protocol', () => {
  it('over 300,000 lines: hints and problems as ever, and the status says what the editor leaves out', () => {
    const program = linesOf(300_000).replace('G0 Z5.\nM5', 'G0 G1 Z5.\nM5');
    return inSession({ 'long.nc': program }, async session => {
      const uri = await session.open('long.nc');
      await session.until(() => session.status.has(uri), 'the status');
      assert.match(session.status.get(uri)?.text ?? '', /^no folding or wrapping over 300,000 lines$/);
      assert.deepEqual(
        session.diagnostics.get(uri)?.map(({ code }) => code),
        ['group-conflict'],
      );
      const hints = await session.ask<unknown[]>('inlayHint', uri, {
        range: { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } },
      });
      assert.ok(hints.length > 0);
    });
  });

  it('an edit that changes the units of everything: hints of the first screen before all is read again', () => {
    const screen = { start: { line: 0, character: 0 }, end: { line: 40, character: 0 } };
    return inSession(
      { 'long.nc': linesOf(300_000) },
      async session => {
        session.settings = { hints: { level: 'every' } };
        const uri = await session.open('long.nc');
        await session.until(() => session.status.has(uri), 'the status');
        const ask = async () =>
          (await session.ask<Hint[]>('inlayHint', uri, { range: screen })).map(
            ({ position, label }) => `${position.line + 1} ${words(label)}`,
          );
        const before = await ask();
        assert.equal(before[1], '4 0.015 mm/tooth');
        session.hint_refreshes = 0;
        await session.edit(uri, [0, 0], [0, 3], 'G20');
        const early = await ask();
        assert.ok(!session.status.has(uri), 'the review of the whole comes later');
        assert.equal(early[0], '4 0.381 mm/tooth');
        await session.until(() => session.hint_refreshes > 0, 'a request to ask for the hints again');
        await session.until(() => session.status.has(uri), 'the status');
        assert.deepEqual((await ask()).slice(1), early);
      },
      { findings_pause_ms: 400 },
    );
  });

  it('reviews a file that is not open', () =>
    inSession({ 'part.nc': linesOf(10) }, async session => {
      const answer = await session.command<Answer>('reviewFromDisk', session.uri('part.nc'));
      assert.equal(answer.do, 'page');
      if (answer.do === 'page') assert.match(answer.content, /part\.nc/);
    }));

  it('says why a file cannot be reviewed from the disk', () =>
    inSession({}, async session => {
      const answer = await session.command<Answer>('reviewFromDisk', session.uri('gone.nc'));
      assert.equal(answer.do, 'say');
      if (answer.do === 'say') assert.match(answer.text, /gone\.nc could not be read: not there/);
    }));
});
