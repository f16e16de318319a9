import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const source = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../server/src');

/** What each room may import from, besides itself. Arrows point down this list only. */
const MAY_IMPORT: Record<string, readonly string[]> = {
  rs274: [],
  cutting: [],
  materials: ['cutting'],
  setup: ['rs274', 'cutting', 'materials'],
  stock: ['rs274', 'cutting', 'setup'],
  review: ['rs274', 'cutting', 'materials', 'setup', 'stock'],
  proveout: ['rs274', 'cutting', 'materials', 'setup', 'stock', 'review'],
  job: ['rs274', 'cutting', 'materials', 'setup', 'stock', 'review', 'proveout'],
  report: ['rs274', 'cutting', 'materials', 'setup', 'stock', 'review', 'proveout'],
  start: [],
  lsp: ['rs274', 'cutting', 'materials', 'setup', 'stock', 'review', 'proveout', 'job', 'report', 'start'],
  cli: ['rs274', 'cutting', 'materials', 'setup', 'stock', 'review', 'proveout', 'job', 'report', 'start'],
};
/** Rooms that touch neither files, nor clock, nor protocol, nor editor. */
const PURE = Object.keys(MAY_IMPORT).filter(room => !['start', 'lsp', 'cli'].includes(room));
const OUTSIDE = /^(?:node:|vscode)/;

interface Import {
  file: string;
  room: string;
  target: string;
}

function sources(): { file: string; text: string }[] {
  return readdirSync(source, { recursive: true, encoding: 'utf8' })
    .filter(file => file.endsWith('.ts'))
    .map(file => ({ file, text: readFileSync(path.join(source, file), 'utf8') }));
}

function imports(): Import[] {
  const found: Import[] = [];
  for (const { file: name, text } of sources()) {
    for (const match of text.matchAll(/(?:\bfrom|\bimport)\s*\(?\s*'([^']+)'/g)) {
      const [, written] = match;
      const target = written.startsWith('.') ? path.join(path.dirname(name), written) : written;
      found.push({ file: name, room: name.split(path.sep)[0], target });
    }
  }
  return found;
}

/** Files that import each other in a loop; imports of types alone leave nothing behind and do not count. */
function circles(): string[] {
  const next = new Map<string, string[]>();
  for (const { file, text } of sources()) {
    const to = [...text.matchAll(/^(?:import|export) (?!type\b)[^;]*?from '(\.[^']+)'/gms)];
    next.set(
      file,
      to.map(([, written]) => path.join(path.dirname(file), written)),
    );
  }
  const done = new Set<string>();
  const found: string[] = [];
  const walk = (file: string, trail: readonly string[]) => {
    const at = trail.indexOf(file);
    if (at >= 0) found.push([...trail.slice(at), file].join(' > '));
    if (at >= 0 || done.has(file)) return;
    for (const other of next.get(file) ?? []) walk(other, [...trail, file]);
    done.add(file);
  };
  for (const file of next.keys()) walk(file, []);
  return found;
}

describe('import direction', () => {
  const all = imports();

  it('sees the imports', () => {
    assert.ok(all.length > 200, String(all.length));
    for (const { room } of all) assert.ok(MAY_IMPORT[room], `the room ${room} has no place in the order`);
  });

  it('points down the list of rooms only', () => {
    const wrong = all.filter(({ room, target }) => {
      const other = target.split(path.sep)[0];
      return other in MAY_IMPORT && other !== room && !MAY_IMPORT[room].includes(other);
    });
    assert.deepEqual(wrong, [], 'move what is shared to a lower room');
  });

  it('has no circle of files', () => {
    assert.deepEqual(circles(), [], 'move what both need to a file of its own');
  });

  it('keeps files, clock, protocol and editor at the edge', () => {
    const wrong = all.filter(({ room, target }) => PURE.includes(room) && OUTSIDE.test(target));
    assert.deepEqual(wrong, [], 'give the value in from lsp or cli');
  });

  it('asks for no clock, no process and no console below the edge', () => {
    const wrong = sources()
      .filter(({ file }) => PURE.includes(file.split(path.sep)[0]))
      .filter(({ text }) => /\b(?:Date\.now|new Date\(\)|performance\.now|process\.|console\.)/.test(text))
      .map(({ file }) => file);
    assert.deepEqual(wrong, [], 'give the value in from lsp or cli');
  });

  it('leaves the cutting library without dependencies', () => {
    assert.deepEqual(
      all.filter(({ room, target }) => room === 'cutting' && !target.startsWith('cutting')),
      [],
    );
  });
});
