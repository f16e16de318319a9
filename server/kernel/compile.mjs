// Compiles the kernel to WebAssembly and writes it into the source as text.
//   npm run kernel             writes server/src/stock/kernel-bytes.ts
//   npm run kernel -- --check  fails when that file is not what the sources give
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const here = path.dirname(fileURLToPath(import.meta.url));
const plain = path.join(here, '../src/stock/kernel');
const bytesFile = path.join(here, '../src/stock/kernel-bytes.ts');

/** The plain kernel stands under `kernel/stock`, with the memory of the compiled one in place of its own. */
function readSource(name) {
  const own = { 'kernel/index.ts': 'index.ts', 'kernel/memory.ts': 'memory.ts' }[name];
  if (own !== undefined) return readFileSync(path.join(here, own), 'utf8');
  const file = /^kernel\/stock\/([a-z-]+\.ts)$/.exec(name)?.[1];
  if (file === undefined || file === 'memory.ts') return null;
  const text = readFileSync(path.join(plain, file), 'utf8').replaceAll(".ts';", "';");
  return text.replaceAll("'./memory'", "'../memory'");
}

function digest() {
  const hash = createHash('sha256');
  for (const folder of [here, plain]) {
    for (const file of readdirSync(folder).sort()) {
      if (file.endsWith('.ts')) hash.update(readFileSync(path.join(folder, file)));
    }
  }
  return hash.digest('hex');
}

let wasm;
const { error, stderr } = await asc.main(
  [
    'kernel/index.ts',
    ...['--outFile', 'kernel.wasm', '-O3', '--converge', '--runtime', 'stub', '--noAssert'],
    ...['--importMemory', '--initialMemory', '32', '--memoryBase', '1024', '--enable', 'simd'],
    ...['--uncheckedBehavior', 'always', '--use', 'abort='],
  ],
  {
    readFile: readSource,
    writeFile(_name, data) {
      wasm = data;
    },
    listFiles: () => [],
  },
);
if (error !== null) {
  console.error(`${stderr.toString()}\n${error.message}`);
  process.exit(1);
}
const text = `/** The compiled kernel, written by npm run kernel. */

/** Digest of the sources that it was made from. */
export const kernelSources = '${digest()}';
/** The module, base64. */
export const kernelBytes =
  '${Buffer.from(wasm).toString('base64')}';
`;
if (process.argv.includes('--check')) {
  if (readFileSync(bytesFile, 'utf8') !== text) {
    console.error('server/src/stock/kernel-bytes.ts is stale: run npm run kernel');
    process.exit(1);
  }
} else {
  writeFileSync(bytesFile, text);
  console.log(`${wasm.length} bytes written`);
}
