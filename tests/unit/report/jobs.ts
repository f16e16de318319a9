import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { openJob } from '../../../server/src/job/open-job.ts';
import type { Review } from '../../../server/src/review/review.ts';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../../fixtures');

/** The three jobs that every page is looked at with: two mills, inch and mm, and a lathe. */
export const JOBS = ['bracket', 'valve', 'bushing'] as const;

/** Reviews one of the fixtures with its sheet, the stock cut. */
export function fixtureReview(name: (typeof JOBS)[number]): Review {
  const at = (ending: string) => path.join(root, name, `${name}.${ending}`);
  return reviewOf(readFileSync(at('nc')), readFileSync(at('setup.json'), 'utf8'));
}

/** Reviews program text or bytes with a sheet. */
export function reviewOf(program: string | Uint8Array, sheet?: string, kind?: 'mill' | 'lathe'): Review {
  return openJob({
    bytes: typeof program === 'string' ? new TextEncoder().encode(program) : program,
    name: 'job.nc',
    files: sheet === undefined ? {} : { sheet: { path: 'job.setup.json', text: sheet } },
    cut: true,
    ...(kind ? { kind } : {}),
  }).review;
}

export const FILE = { path: 'shop/job.nc', sha256: 'ab'.repeat(32), bytes: 1, version: '0.1.0' };
