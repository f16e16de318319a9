import assert from 'node:assert/strict';
import fc from 'fast-check';
import { proveoutSheet } from '../../../server/src/proveout/sheet.ts';
import { reviewHtml } from '../../../server/src/report/html.ts';
import { escapeHtml } from '../../../server/src/report/html-text.ts';
import { proveoutHtml } from '../../../server/src/report/proveout-html.ts';
import { visible } from '../../../server/src/report/visible.ts';
import type { Review } from '../../../server/src/review/review.ts';
import { FILE, fixtureReview, JOBS, reviewOf } from './jobs.ts';

const pages = (review: Review, path = FILE.path): string[] => [
  reviewHtml(review, { ...FILE, path }),
  proveoutHtml(review, proveoutSheet(review), { ...FILE, path }),
];

const TAGS = new Set(
  '!DOCTYPE html head meta title style body a header h1 h2 p span strong b nav ul ol li main section table caption thead tbody tr th td details summary code mark div dl dt dd footer'.split(
    ' ',
  ),
);
const ATTRIBUTES = new Set(
  'lang charset http-equiv content name href class id aria-label aria-labelledby aria-hidden scope colspan tabindex role open html'.split(
    ' ',
  ),
);

/** Reads a page as a browser would see its markup, and fails on any tag or attribute that our pages do not write. */
function assertOwnMarkup(text: string): void {
  const body = text.replace(/<style>[\s\S]*?<\/style>/, '');
  for (const match of body.matchAll(/<([^>]*)>/g)) {
    const [, name, attributes] = /^\/?([!\w]+)([\s\S]*?)\/?$/.exec(match[1]) ?? [];
    assert.ok(name && TAGS.has(name), `a tag that is not ours: ${match[0].slice(0, 80)}`);
    for (const [, attribute] of attributes.replace(/="[^"]*"/g, '=').matchAll(/([\w-]+)/g))
      assert.ok(ATTRIBUTES.has(attribute), `an attribute that is not ours: ${match[0].slice(0, 80)}`);
  }
  assert.doesNotMatch(body.replace(/<[^>]*>/g, ''), /[<>]/);
  assert.doesNotMatch(body, /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
  assert.doesNotMatch(text, /\p{Surrogate}/u);
}

const ENTITIES: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
const unescaped = (text: string) =>
  text.replace(/<[^>]*>/g, '').replace(/&(#?\w+);/g, (_, name: string) => ENTITIES[name] ?? '?');

describe('pages', () => {
  for (const name of JOBS) {
    const review = fixtureReview(name);
    const [whole, proveout] = pages(review);

    it(`of ${name} are one file: nothing loaded, run or sent`, () => {
      for (const text of [whole, proveout]) {
        assertOwnMarkup(text);
        assert.match(
          text,
          /http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;/,
        );
        assert.doesNotMatch(text, /https?:|\/\/[a-z]|@import|url\(|<script|<img|<link|javascript:|src=/i);
      }
    });

    it(`of ${name} have a language, landmarks, one first heading, and links that lead somewhere`, () => {
      for (const text of [whole, proveout]) {
        assert.match(text, /<html lang="en">/);
        for (const landmark of ['<header>', '<main', '<footer>'])
          assert.equal(text.split(landmark).length, 2, landmark);
        assert.equal(text.split('<h1').length, 2);
        const ids = [...text.matchAll(/ id="([^"]*)"/g)].map(match => match[1]);
        assert.equal(new Set(ids).size, ids.length, 'an id twice');
        for (const [, to] of text.matchAll(/href="#([^"]*)"/g)) assert.ok(ids.includes(to), `#${to}`);
      }
      assert.match(whole, /<nav aria-label=/);
    });

    it(`of ${name} carry the caution, the verdict and what was not checked`, () => {
      for (const text of [whole, proveout]) assert.match(text, /Starting values only\./);
      for (const text of [whole, proveout]) assert.match(text, /No errors found in what was checked\./);
      for (const why of review.not_checked) assert.ok(whole.includes(escapeHtml(why)), why);
    });

    it(`of ${name} list each tool, and in the review each line and finding`, () => {
      for (const tool of review.tools) assert.ok(whole.includes(`<th scope="row">T${tool.number}</th>`));
      for (const tool of review.tools) assert.ok(proveout.includes(`<th scope="row">T${tool.number} `));
      for (let line = 1; line <= review.program.lineCount; line++) assert.ok(whole.includes(`id="L${line}"`));
      for (const finding of review.findings)
        assert.ok(
          whole.split(escapeHtml(finding.message)).length >= 3,
          `in list and listing: ${finding.message}`,
        );
    });
  }

  it('show the text of any program as it is written, and nothing of it as markup', () => {
    const line = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc.constantFrom(
        '<script>alert(1)</script>',
        '</code></td><h1>',
        '"><a href=x>',
        '(&lt;&#0;)',
        'T1 M6 (<b>)',
      ),
    );
    fc.assert(
      fc.property(fc.array(line, { maxLength: 12 }), lines => {
        const review = reviewOf(lines.join('\n'));
        const [whole, proveout] = pages(review);
        assertOwnMarkup(whole);
        assertOwnMarkup(proveout);
        const { text } = review.program.reading;
        const shown = [...whole.matchAll(/<td><code>([\s\S]*?)<\/code>/g)].map(match => unescaped(match[1]));
        const wanted = Array.from({ length: review.program.lineCount }, (_, i) =>
          unescaped(escapeHtml(text.lineText(i))),
        );
        assert.deepEqual(shown, wanted);
      }),
      { numRuns: 60, seed: 4 },
    );
  });

  it('hold any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), bytes => {
        for (const text of pages(reviewOf(bytes))) assertOwnMarkup(text);
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  it('escape what sheet, silences and path say', () => {
    const evil = `<img src=x onerror="alert('1')">`;
    const sheet = JSON.stringify({
      units: 'mm',
      workpiece: { material: evil },
      tools: { 1: { kind: 'end-mill', diameter: 10, teeth: 3, maker: { chip_load: [1, 2], source: evil } } },
      silence: [{ code: 'no-feed', reason: evil }],
      [evil]: 1,
    });
    const program = `G21 G90 G94\n(OK chip-load-low: ${evil})\nT1 M6 (${evil})\nS1000 M3\nG0 X0 Y0 Z1\nG1 X10\nM0 (${evil})\n`;
    const review = reviewOf(program, sheet);
    assert.ok(review.silenced.length > 0);
    for (const text of pages(review, `a/${evil}.nc`)) {
      assertOwnMarkup(text);
      assert.ok(text.includes('&lt;img'));
    }
  });

  it('cut a long program to the places that matter, and say what is left out', () => {
    const filler = Array.from({ length: 3000 }, (_, i) => `X${i % 50}.`);
    const review = reviewOf(
      ['G21 G90 G94', 'T1 M6', 'S500 M3', 'G1 X1. F100', ...filler, 'G44.9', 'M30'].join('\n'),
    );
    const [whole] = pages(review);
    assert.match(whole, /29\d\d lines from line \d+ on left out here/);
    const listed = whole.match(/<tr id="L/g)?.length ?? 0;
    assert.ok(listed > 5 && listed < 100, String(listed));
    const finding = review.findings.find(({ code }) => code === 'code-unknown');
    assert.ok(finding && whole.includes(`id="L${finding.line + 1}"`));
    for (const [, to] of whole.matchAll(/href="#([^"]*)"/g)) assert.ok(whole.includes(`id="${to}"`), to);
  });
});

describe('escaped text', () => {
  const cases: [text: string, wanted: string][] = [
    [`<&>"'`, '&lt;&amp;&gt;&quot;&#39;'],
    ['a\u0000b\u001b', 'a\u2400b\u241b'],
    ['\u202egnp.exe', '\\u202egnp.exe'],
    ['x\ud800y', 'x\ufffdy'],
    ['\ud83d\ude00', '\ud83d\ude00'],
    ['\uffff', '\ufffd'],
  ];
  for (const [text, wanted] of cases)
    it(`of ${JSON.stringify(text)}`, () => assert.equal(escapeHtml(text), wanted));

  it('keeps tabs and line ends', () => assert.equal(visible('a\tb\nc'), 'a\tb\nc'));
});
