import assert from 'node:assert/strict';
import { checkPage } from '../../../server/src/lsp/commands/pages.ts';
import { fixtureReview, reviewOf } from '../report/jobs.ts';

const HEAD = 'G20 G17 G40 G49 G80 G90 G94\nT2 M6 (1/2 END MILL 3 FLUTE)\nS8000 M3\nG0 X0 Y0\nG43 H2 Z1.\n';
const page = (program: string, busy = false, uri?: string) =>
  checkPage(reviewOf(`%\n${HEAD}${program}G0 Z1.\nM30\n%\n`), 'job.nc', busy, uri).replaceAll('\\', '');
const sections = (text: string) => [...text.matchAll(/^## (.*)$/gm)].map(found => found[1]);

describe('the page that answers before sending', () => {
  it('stops on errors, names them first, and says where', () => {
    const text = page('M5\nG1 Z-.25 F30.\nX4. F72.\n');
    assert.match(text, /^# Do not send: 1 error\n/);
    assert.deepEqual(sections(text), ['What stops it', 'Not checked']);
    assert.match(text, /## What stops it\n\n- line 8, error: .*\(spindle-stopped\)/);
  });

  it('without errors says so, and no more than that', () => {
    const text = page('G1 Z-.25 F30.\nX4. F72.\n');
    assert.match(text, /^# No errors found in what was checked\./);
    assert.doesNotMatch(text, /\bsafe\b|## What stops it/i);
  });

  it('ends on the caution and says what was not checked', () => {
    const text = page('G1 Z-.25 F30.\n');
    assert.match(text, /## Not checked\n\n- .*the stock is not known/);
    assert.match(text, /---\n\nStarting values only\. .*a qualified person decides\.$/);
  });

  it('says that figures of the stock are still to come', () => {
    assert.match(page('G1 Z-.25 F30.\n', true), /## Not checked\n\n- the stock is still being worked out/);
  });

  it('names the time, and the quote where there is one', () => {
    assert.match(page('G1 Z-.25 F30.\n'), /^job\.nc\. [\d.]+ s at programmed feed\.$/m);
    const quoted = checkPage(fixtureReview('bracket'), 'bracket.nc', false);
    assert.match(quoted, /at programmed feed, quoted 3 min 00 s\.$/m);
  });

  it('lists what was silenced with its reason', () => {
    const text = page('M5\nG1 Z-.25 F30. (OK spindle-stopped: broach, spindle must stand)\n');
    assert.match(text, /## Silenced\n\n- line 8, spindle-stopped: broach, spindle must stand/);
    assert.match(text, /^# No errors found in what was checked\./);
  });

  it('links lines and codes where the client follows them', () => {
    const text = page('M5\nG1 Z-.25 F30.\n', false, 'file:///shop/job.nc');
    const link = (command: string, args: unknown[]) =>
      `command:${command}?${encodeURIComponent(JSON.stringify(args))}`;
    assert.ok(text.includes(`[line 8](${link('vscode.open', ['file:///shop/job.nc#L8'])})`), text);
    assert.ok(
      text.includes(
        `[spindle-stopped](${link('tapeproof.explain', ['file:///shop/job.nc', 'spindle-stopped'])})`,
      ),
      text,
    );
  });

  it('counts findings beyond the twentieth', () => {
    const many = Array.from({ length: 30 }, (_, i) => `G0 G1 X${i}. Y${i % 2}. F72.\n`).join('');
    const text = page(many);
    assert.match(text, /^# Do not send: \d+ errors?\n/);
    const listed = text.split('\n').filter(line => line.startsWith('- line ')).length;
    assert.ok(listed <= 40, String(listed));
  });

  it('shows program text as text', () => {
    const review = reviewOf('%\nG20 G90\nM5\n(**bold** <b>x</b> [link](x))\nM30\n%\n');
    assert.doesNotMatch(checkPage(review, '**name**<b>.nc', false), /(?<!\\)\*\*name|<b>/);
  });
});
