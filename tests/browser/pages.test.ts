import assert from 'node:assert/strict';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { proveoutSheet } from '../../server/src/proveout/sheet.ts';
import { reviewHtml } from '../../server/src/report/html.ts';
import { proveoutHtml } from '../../server/src/report/proveout-html.ts';
import { FILE, fixtureReview, JOBS } from '../unit/report/jobs.ts';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
const shots = path.join(root, 'tests/browser/shots');
const executablePath = process.env.EDITOR_HOST_CHROMIUM ?? '/usr/bin/chromium';
/** CSS pixels of A4 at the page's own 96 an inch. */
const A4 = { width: 794, height: 1123 };

const KINDS = {
  review: (name: (typeof JOBS)[number]) => reviewHtml(fixtureReview(name), { ...FILE, path: `${name}.nc` }),
  proveout: (name: (typeof JOBS)[number]) => {
    const review = fixtureReview(name);
    return proveoutHtml(review, proveoutSheet(review), { ...FILE, path: `${name}.nc` });
  },
};

describe('pages in a browser', () => {
  let browser: Browser;
  let folder = '';

  before(async () => {
    assert.ok(
      existsSync(executablePath),
      `no browser at ${executablePath}: run node tests/editor/prepare.mjs as root on Debian, or apt-get install chromium, or name one in EDITOR_HOST_CHROMIUM`,
    );
    folder = mkdtempSync(path.join(tmpdir(), 'tapeproof-pages-'));
    mkdirSync(shots, { recursive: true });
    browser = await chromium.launch({ executablePath, args: ['--no-sandbox'], timeout: 30_000 });
  });
  after(async () => {
    await browser?.close();
    if (folder) rmSync(folder, { recursive: true, force: true });
  });

  /** Opens a page and notes whatever it says or asks for. */
  async function open(
    file: string,
    scheme: 'light' | 'dark' = 'light',
  ): Promise<{ page: Page; noted: string[] }> {
    const page = await browser.newPage({ viewport: { width: 1100, height: 800 }, colorScheme: scheme });
    const noted: string[] = [];
    page.on('console', message => noted.push(`console: ${message.text()}`));
    page.on('pageerror', error => noted.push(`error: ${error.message}`));
    page.on('request', request => {
      if (request.url() !== pathToFileURL(file).href) noted.push(`request: ${request.url()}`);
    });
    await page.goto(pathToFileURL(file).href, { timeout: 20_000 });
    return { page, noted };
  }

  /** Texts that stand outside the page's width or under something else; run inside the page. */
  const hiddenTexts = (page: Page, besides: string) =>
    page.evaluate(besides => {
      const found: string[] = [];
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const text = node.nodeValue?.trim();
        const parent = node.parentElement;
        if (!text || !parent || parent.closest(besides)) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        const box = range.getBoundingClientRect();
        const scrolls = parent.closest('.wide');
        if (
          box.width === 0 ||
          box.left < 0 ||
          (!scrolls && box.right > document.documentElement.clientWidth + 1)
        )
          found.push(text.slice(0, 60));
      }
      return found;
    }, besides);

  for (const name of JOBS) {
    for (const [kind, write] of Object.entries(KINDS)) {
      it(`${kind} of ${name} asks for nothing, shows all its text, and prints`, async () => {
        const file = path.join(folder, `${kind}-${name}.html`);
        writeFileSync(file, write(name));
        const { page, noted } = await open(file);
        assert.deepEqual(await hiddenTexts(page, '.skip'), []);
        await page.screenshot({ path: path.join(shots, `${kind}-${name}.png`), fullPage: true });
        const pdf = await page.pdf({ format: 'A4', path: path.join(shots, `${kind}-${name}.pdf`) });
        const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
        assert.ok(pages >= 1, 'nothing was printed');
        if (kind === 'proveout') assert.equal(pages, 1, 'the sheet of a small job is one page');
        await page.emulateMedia({ media: 'print' });
        await page.setViewportSize(A4);
        assert.deepEqual(await hiddenTexts(page, '.skip, nav'), [], 'on paper');
        await page.screenshot({ path: path.join(shots, `${kind}-${name}-print.png`), fullPage: true });
        assert.deepEqual(noted, []);
        await page.close();
      });
    }
  }

  it('prints black on white from a dark screen, and nothing by colour alone', async () => {
    const file = path.join(folder, 'dark.html');
    writeFileSync(file, KINDS.proveout('bracket'));
    const { page } = await open(file, 'dark');
    const colours = () =>
      page.evaluate(() => {
        const { color, backgroundColor } = getComputedStyle(document.body);
        return [color, backgroundColor];
      });
    const [ink, paper] = await colours();
    assert.notEqual(paper, 'rgb(255, 255, 255)');
    assert.notEqual(ink, paper);
    await page.emulateMedia({ media: 'print' });
    assert.deepEqual(await colours(), ['rgb(0, 0, 0)', 'rgb(255, 255, 255)']);
    const coloured = await page.evaluate(() =>
      Array.from(document.querySelectorAll('*')).flatMap(element => {
        const { color, borderTopColor, backgroundColor } = getComputedStyle(element);
        return [color, borderTopColor, backgroundColor].filter(value => {
          const [r, g, b] = value.match(/[\d.]+/g)?.map(Number) ?? [0, 0, 0];
          return r !== g || g !== b;
        });
      }),
    );
    assert.deepEqual(coloured, [], 'only grey on paper');
    await page.close();
  });

  it('is reached by the keyboard: links, folded sums and the listing', async () => {
    const file = path.join(folder, 'keys.html');
    writeFileSync(file, KINDS.review('bracket'));
    const { page } = await open(file);
    const reached = new Set<string>();
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press('Tab');
      reached.add(await page.evaluate(() => document.activeElement?.tagName ?? ''));
    }
    for (const tag of ['A', 'SUMMARY', 'DIV']) assert.ok(reached.has(tag), tag);
    await page.locator('summary').first().focus();
    await page.keyboard.press('Enter');
    assert.equal(await page.locator('details').first().getAttribute('open'), null, 'Enter folds it');
    await page.close();
  });

  it('was written to a file that a person can look at', () => {
    for (const name of JOBS)
      for (const kind of Object.keys(KINDS))
        assert.ok(readFileSync(path.join(shots, `${kind}-${name}.png`)).length > 10_000);
  });
});
