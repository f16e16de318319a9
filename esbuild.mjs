// Builds everything that runs: the extension into dist, the command line and the cutting library into server/dist.
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { notices } from './client/scripts/notices.mjs';

const common = {
  bundle: true,
  sourcemap: false,
  minify: true,
  logLevel: 'warning',
  legalComments: 'none',
  metafile: true,
};
const node = { ...common, platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };
const browser = {
  ...common,
  platform: 'browser',
  target: 'es2022',
  mainFields: ['browser', 'module', 'main'],
};

/** The protocol library names its pipes by random numbers: we have none, so what makes these is loaded only if one is. */
const lateCrypto = {
  name: 'late crypto',
  setup(builder) {
    builder.onResolve({ filter: /^crypto$/ }, ({ importer }) =>
      importer.includes('vscode-jsonrpc') ? { path: 'crypto', namespace: 'late' } : undefined,
    );
    builder.onLoad({ filter: /.*/, namespace: 'late' }, () => ({
      contents: "exports.randomBytes = size => require('node:crypto').randomBytes(size);",
    }));
  },
};

const extension = await Promise.all([
  build({
    ...node,
    entryPoints: { 'client.node': 'client/src/node/main.ts' },
    outdir: 'dist',
    external: ['vscode'],
  }),
  build({
    ...node,
    entryPoints: {
      'server.body.node': 'server/src/lsp/node/main.ts',
      'worker.node': 'server/src/lsp/node/worker.ts',
    },
    outdir: 'dist',
    plugins: [lateCrypto],
  }),
  build({
    ...browser,
    format: 'cjs',
    entryPoints: { 'client.browser': 'client/src/browser/main.ts' },
    outdir: 'dist',
    external: ['vscode'],
  }),
  build({
    ...browser,
    format: 'iife',
    entryPoints: {
      'server.browser': 'server/src/lsp/browser/main.ts',
    },
    outdir: 'dist',
  }),
]);
const terminal = await Promise.all([
  build({
    ...node,
    banner: { js: "const bodyUrl=require('node:url').pathToFileURL(__filename).href;" },
    define: { 'import.meta.url': 'bodyUrl' },
    entryPoints: { 'cli.body': 'server/src/cli/main.ts' },
    outExtension: { '.js': '.cjs' },
    outdir: 'server/dist',
  }),
  build({
    ...browser,
    minify: false,
    format: 'esm',
    entryPoints: { cutting: 'server/src/cutting/index.ts' },
    outdir: 'server/dist',
  }),
]);

// The start files know their bodies by a stamp.
for (const [entry, source, outdir, body, js] of [
  ['server.node', 'server/src/lsp/node/start.ts', 'dist', 'server.body.node.js', '.js'],
  ['cli', 'server/src/cli/start.ts', 'server/dist', 'cli.body.cjs', '.cjs'],
]) {
  const digest = createHash('sha256')
    .update(readFileSync(`${outdir}/${body}`))
    .digest('hex');
  await build({
    ...node,
    entryPoints: { [entry]: source },
    outdir,
    outExtension: { '.js': js },
    define: { BODY_STAMP: JSON.stringify(digest.slice(0, 16)) },
  });
}

// What the packed files carry besides code: the sample job, the schemas that help to fill in sheet and crib, the licences of what is inside.
mkdirSync('dist/sample', { recursive: true });
cpSync('fixtures/bracket', 'dist/sample', { recursive: true });
cpSync('client/schemas', 'dist/schemas', { recursive: true });
writeFileSync('dist/notices.txt', notices(extension.map(result => result.metafile)));
writeFileSync('server/dist/notices.txt', notices(terminal.map(result => result.metafile)));
