import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Session } from './session.ts';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '../..');

interface Hint {
  position: { line: number; character: number };
  label: string | { value: string }[];
}

const JOBS = ['bracket', 'valve', 'bushing'] as const;

/** The program with the hints written in, as a person sees it. */
function screen(text: string, hints: readonly Hint[]): string {
  const lines = text.split('\n');
  for (const hint of hints) {
    const label = typeof hint.label === 'string' ? hint.label : hint.label.map(part => part.value).join('');
    lines[hint.position.line] += `  « ${label} »`;
  }
  return lines.join('\n');
}

function expected(name: string, actual: string): string {
  const file = path.join(here, 'scenarios', `${name}.screen`);
  if (process.env.UPDATE === '1') writeFileSync(file, actual);
  return readFileSync(file, 'utf8');
}

describe('hints over the protocol', () => {
  for (const job of JOBS) {
    for (const sheet of ['with its sheet', 'without a sheet'] as const) {
      it(`${job} ${sheet}`, async () => {
        const read = (name: string) => readFileSync(path.join(root, 'fixtures', job, name), 'utf8');
        const program = read(`${job}.nc`);
        const files: Record<string, string> = { [`${job}.nc`]: program };
        if (sheet === 'with its sheet') files[`${job}.setup.json`] = read(`${job}.setup.json`);
        const session = await Session.start(files);
        try {
          const uri = await session.open(`${job}.nc`);
          const hints = await session.request<Hint[]>('textDocument/inlayHint', {
            textDocument: { uri },
            range: { start: { line: 0, character: 0 }, end: { line: 1000, character: 0 } },
          });
          for (const hint of hints) {
            const text =
              typeof hint.label === 'string' ? hint.label : hint.label.map(part => part.value).join('');
            assert.ok(text.length < 43, `${text} is cut by the editor`);
          }
          const actual = screen(program, hints);
          assert.equal(actual, expected(`${job}-${sheet.replaceAll(' ', '-')}`, actual));
          assert.deepEqual(session.errors, []);
        } finally {
          await session.close();
        }
      });
    }
  }
});
