import { build } from 'esbuild';

const common = { bundle: true, sourcemap: false, minify: true, logLevel: 'warning', legalComments: 'none' };
const node = { ...common, platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };
const browser = { ...common, platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'] };

await Promise.all([
  build({ ...node, entryPoints: { 'client.node': 'client/src/node/main.ts' }, outdir: 'dist', external: ['vscode'] }),
  build({ ...node, entryPoints: { 'server.node': 'server/src/lsp/node/main.ts', 'worker.node': 'server/src/lsp/node/worker.ts' }, outdir: 'dist' }),
  build({ ...browser, format: 'cjs', entryPoints: { 'client.browser': 'client/src/browser/main.ts' }, outdir: 'dist', external: ['vscode'] }),
  build({ ...browser, format: 'iife', entryPoints: { 'server.browser': 'server/src/lsp/browser/main.ts', 'worker.browser': 'server/src/lsp/browser/worker.ts' }, outdir: 'dist' }),
  build({ ...node, format: 'esm', banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" }, entryPoints: { cli: 'server/src/cli/main.ts' }, outdir: 'server/dist' }),
  build({ ...browser, minify: false, format: 'esm', entryPoints: { cutting: 'server/src/cutting/index.ts' }, outdir: 'server/dist' }),
]);
