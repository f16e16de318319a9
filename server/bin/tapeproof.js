#!/usr/bin/env node
import { existsSync } from 'node:fs';

const built = new URL('../dist/cli.js', import.meta.url);
if (existsSync(built)) await import(built.href);
else {
  process.stderr.write(
    'tapeproof is not built yet: run `npm ci && npm run build` at the top of the repository.\n',
  );
  process.exitCode = 2;
}
