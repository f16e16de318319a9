#!/usr/bin/env node
const { existsSync } = require('node:fs');
const path = require('node:path');

const built = path.join(__dirname, '../dist/cli.cjs');
if (existsSync(built)) require(built);
else {
  process.stderr.write(
    'tapeproof is not built yet: run `npm ci && npm run build` at the top of the repository.\n',
  );
  process.exitCode = 2;
}
