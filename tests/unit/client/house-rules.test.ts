import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

const files = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter(name => name.endsWith('.ts'))
    .map(name => path.join(folder, name));
const client = files('client/src');
const all = [...client, ...files('server/src')];

const imports = (file: string): string[] =>
  [...readFileSync(file, 'utf8').matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map(match => match[1]);

describe('the client', () => {
  const protocol = path.join('server', 'src', 'lsp', 'protocol.ts');
  it('imports its own files, the editor, the protocol library, and of the server the protocol alone', () => {
    const allowed = /^(\.{1,2}\/|vscode$|vscode-languageclient(\/node|\/browser)?$)/;
    for (const file of client) {
      for (const name of imports(file)) {
        assert.match(name, allowed, `${file} imports ${name}`);
        const target = name.startsWith('.') ? path.join(path.dirname(file), name) : '';
        const fine = !target || target === protocol || client.includes(target);
        assert.ok(fine, `${file} imports ${name}: the two talk by the protocol alone`);
      }
    }
  });

  it('keeps what differs between the hosts in its two entry files', () => {
    for (const file of client) {
      const host = imports(file).filter(name => /vscode-languageclient\/|^node:/.test(name));
      if (!/(node|browser)[\\/]main\.ts$/.test(file)) assert.deepEqual(host, [], file);
    }
  });

  it('loads the protocol library only when a program is there', () => {
    for (const file of client) {
      const text = readFileSync(file, 'utf8');
      const eager = /^import (?!type )[^;]*'vscode-languageclient/m;
      assert.doesNotMatch(text, eager, `${file}: an eager import costs every start of the editor`);
    }
  });
});

it('the protocol file imports nothing, so that the client carries no part of the server', () => {
  assert.deepEqual(imports(path.join('server', 'src', 'lsp', 'protocol.ts')), []);
});

describe('privacy', () => {
  it('no file of ours can open a connection', () => {
    const network =
      /\bfetch\s*\(|XMLHttpRequest|\bWebSocket\b|EventSource|sendBeacon|'(node:)?(https?|http2|net|tls|dgram|dns)'/;
    for (const file of all) assert.doesNotMatch(readFileSync(file, 'utf8'), network, file);
  });
});
