import { readFileSync } from 'node:fs';
import { byteLoop, splitAndMatch } from './anchors.ts';
import { againstScripts, cold } from './cold.ts';
import type { Figure } from './figures.ts';
import { growth, memory } from './size.ts';
import { processes, start } from './start.ts';
import { stockTyping } from './stock-typing.ts';
import { typing } from './typing.ts';

/** Each part runs in a process of its own, so that no part feels the memory of another. */
const parts: Record<string, (root: string) => Figure[] | Promise<Figure[]>> = {
  finishing: () => cold('finishing', 5),
  pockets: () => cold('pockets', 6),
  turning: () => cold('turning', 6),
  scripts: againstScripts,
  memory,
  growth,
  typing,
  'stock-typing': stockTyping,
  start,
  processes: root => processes(root, process.argv[1]),
};

const [name, root] = process.argv.slice(2);
if (name === 'names') console.log(Object.keys(parts).join(' '));
else if (name === 'script') {
  const bytes = readFileSync(root);
  console.log(splitAndMatch(bytes), byteLoop(bytes.subarray(0, 1)));
} else {
  const figures = await parts[name](root);
  process.send?.(figures);
  process.disconnect?.();
}
