// Compiles the kernels to WebAssembly and writes them into the source as text.
//   npm run kernel             writes the kernel-bytes.ts of each
//   npm run kernel -- --check  fails when one of them is not what its sources give
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const here = path.dirname(fileURLToPath(import.meta.url));

/**
 * Name, own files of the compiled form, plain sources by room (the first has the memory and gets the bytes), pages of
 * memory to start with. Files that are `replaced` have a compiled form of their own beside the memory, or only that.
 */
const KERNELS = [
  { own: here, rooms: ['stock'], replaced: ['flat-move.ts', 'flat-places.ts', 'walls.ts'], pages: 32 },
  { own: path.join(here, 'reader'), rooms: ['rs274', 'review'], replaced: [], pages: 48 },
];

function folderOf(room) {
  return path.join(here, '../src', room, 'kernel');
}

/** A plain source stands under `kernel/plain/ROOM`; the memory of the compiled form takes the place of its own. */
function sourceOf({ own, rooms, replaced }, name) {
  const ours = { 'kernel/index.ts': 'index.ts', 'kernel/memory.ts': 'memory.ts' }[name];
  if (ours !== undefined) return readFileSync(path.join(own, ours), 'utf8');
  const [, room, file] = /^kernel\/plain\/([a-z0-9]+)\/([a-z-]+\.ts)$/.exec(name) ?? [];
  if (!rooms.includes(room) || file === 'memory.ts') return null;
  const folder = replaced.includes(file) ? own : folderOf(room);
  const text = readFileSync(path.join(folder, file), 'utf8').replaceAll(".ts';", "';");
  return text
    .replaceAll(/'\.\.\/\.\.\/([a-z0-9]+)\/kernel\//g, "'../$1/")
    .replaceAll(/'(?:\.|\.\.\/[a-z0-9]+)\/memory'/g, "'../../memory'");
}

function digest({ own, rooms }) {
  const hash = createHash('sha256');
  for (const folder of [own, ...rooms.map(folderOf)]) {
    for (const file of readdirSync(folder).sort()) {
      if (file.endsWith('.ts')) hash.update(readFileSync(path.join(folder, file)));
    }
  }
  return hash.digest('hex');
}

async function compile(kernel) {
  let wasm;
  const { error, stderr } = await asc.main(
    [
      'kernel/index.ts',
      ...['--outFile', 'kernel.wasm', '-O3', '--converge', '--runtime', 'stub', '--noAssert'],
      ...['--importMemory', '--initialMemory', `${kernel.pages}`, '--memoryBase', '1024', '--enable', 'simd'],
      ...['--uncheckedBehavior', 'always', '--use', 'abort='],
    ],
    {
      readFile: name => sourceOf(kernel, name),
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
  return wasm;
}

for (const kernel of KERNELS) {
  const bytesFile = path.join(folderOf(kernel.rooms[0]), '../kernel-bytes.ts');
  const wasm = await compile(kernel);
  const text = `/** The compiled kernel, written by npm run kernel. */

/** Digest of the sources that it was made from. */
export const kernelSources = '${digest(kernel)}';
/** The module, base64. */
export const kernelBytes =
  '${Buffer.from(wasm).toString('base64')}';
`;
  if (process.argv.includes('--check')) {
    if (readFileSync(bytesFile, 'utf8') !== text) {
      console.error(`${path.relative(process.cwd(), bytesFile)} is stale: run npm run kernel`);
      process.exit(1);
    }
  } else {
    writeFileSync(bytesFile, text);
    console.log(`${path.relative(process.cwd(), bytesFile)}: ${wasm.length} bytes`);
  }
}
