import assert from 'node:assert/strict';
import { job, sameScreen } from './screens.ts';
import { inSession } from './session.ts';

interface Hint {
  position: { line: number; character: number };
  label: string | { value: string }[];
}

const JOBS = ['bracket', 'valve', 'bushing'] as const;

const labelOf = ({ label }: Hint): string =>
  typeof label === 'string' ? label : label.map(part => part.value).join('');

/** The program with the hints written in, as a person sees it. */
function screen(text: string, hints: readonly Hint[]): string {
  const lines = text.split('\n');
  for (const hint of hints) lines[hint.position.line] += `  « ${labelOf(hint)} »`;
  return lines.join('\n');
}

describe('hints over the protocol', () => {
  for (const name of JOBS) {
    for (const sheet of ['with its sheet', 'without a sheet'] as const) {
      it(`${name} ${sheet}`, () => {
        const files = job(name, sheet === 'with its sheet');
        return inSession(files, async session => {
          const uri = await session.open(`${name}.nc`);
          const hints = await session.ask<Hint[]>('inlayHint', uri, {
            range: { start: { line: 0, character: 0 }, end: { line: 1000, character: 0 } },
          });
          for (const hint of hints) assert.ok(labelOf(hint).length < 43, `${labelOf(hint)} is cut`);
          sameScreen(`${name}-${sheet.replaceAll(' ', '-')}`, screen(files[`${name}.nc`], hints));
        });
      });
    }
  }
});
