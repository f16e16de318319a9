import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');

/** Files of a scenario by name; the server asks the client for them, as it asks the editor. */
export type Files = Record<string, string>;

const FOLDER = 'file:///shop';

/** A real server process over standard input and output, with a small editor on the other side. */
export class Session {
  readonly diagnostics = new Map<
    string,
    {
      message: string;
      code?: string;
      severity?: number;
      range: { start: { line: number; character: number }; end: { line: number; character: number } };
    }[]
  >();
  readonly status = new Map<string, { text: string; detail?: string }>();
  readonly errors: string[] = [];
  settings: Record<string, unknown> = {};
  private versions = new Map<string, number>();
  private waiting: (() => void)[] = [];

  private constructor(
    private readonly process: ChildProcess,
    private readonly scratch: string,
    readonly connection: MessageConnection,
    private readonly files: Files,
  ) {}

  static async start(files: Files): Promise<Session> {
    const scratch = mkdtempSync(path.join(tmpdir(), 'tapeproof-protocol-'));
    const outfile = path.join(scratch, 'server.cjs');
    buildSync({
      entryPoints: [path.join(root, 'server/src/lsp/node/main.ts')],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'cjs',
      mainFields: ['module', 'main'],
      logLevel: 'error',
    });
    const child = spawn(process.execPath, [outfile, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const connection = createMessageConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const session = new Session(child, scratch, connection, files);
    session.listen();
    await connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: FOLDER,
      workspaceFolders: [{ uri: FOLDER, name: 'shop' }],
      capabilities: {
        workspace: { configuration: true, workspaceFolders: true, inlayHint: { refreshSupport: true } },
        textDocument: { inlayHint: {} },
      },
    });
    await connection.sendNotification('initialized', {});
    return session;
  }

  private listen(): void {
    const { connection } = this;
    connection.onRequest('workspace/configuration', (params: { items: unknown[] }) =>
      params.items.map(() => this.settings),
    );
    connection.onRequest('workspace/inlayHint/refresh', () => null);
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('tapeproof/readFile', ({ uri }: { uri: string }) => {
      const text = this.files[uri.slice(FOLDER.length + 1)];
      return text === undefined ? { missing: 'not there' } : { text, modified: 0 };
    });
    connection.onNotification(
      'textDocument/publishDiagnostics',
      (params: { uri: string; diagnostics: never[] }) => {
        this.diagnostics.set(params.uri, params.diagnostics);
        for (const wake of this.waiting.splice(0)) wake();
      },
    );
    connection.onNotification(
      'tapeproof/status',
      (params: { uri: string; text: string; detail?: string }) => {
        this.status.set(params.uri, params);
        for (const wake of this.waiting.splice(0)) wake();
      },
    );
    connection.onNotification('window/logMessage', (params: { type: number; message: string }) => {
      if (params.type === 1) this.errors.push(params.message);
    });
    connection.listen();
  }

  uri(name: string): string {
    return `${FOLDER}/${name}`;
  }

  async open(name: string, languageId = 'rs274'): Promise<string> {
    const uri = this.uri(name);
    this.versions.set(uri, 1);
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId, version: 1, text: this.files[name] ?? '' },
    });
    return uri;
  }

  /** Replaces a range of an open document. */
  async edit(uri: string, start: [number, number], end: [number, number], text: string): Promise<void> {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [
        {
          range: { start: { line: start[0], character: start[1] }, end: { line: end[0], character: end[1] } },
          text,
        },
      ],
    });
  }

  request<T>(method: string, params: unknown): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  /** Waits until something that the server sends makes `probe` true. */
  async until(probe: () => boolean, what: string): Promise<void> {
    const end = Date.now() + 20_000;
    while (!probe()) {
      if (Date.now() > end) throw new Error(`${what} did not come`);
      await new Promise<void>(wake => {
        this.waiting.push(wake);
        setTimeout(wake, 200);
      });
    }
  }

  async close(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const ended = new Promise<number | null>(done => this.process.on('exit', done));
    this.connection.dispose();
    const code = await ended;
    rmSync(this.scratch, { recursive: true, force: true });
    if (code !== 0) throw new Error(`the server ended with ${code}`);
  }
}
