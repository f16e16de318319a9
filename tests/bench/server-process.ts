import { type ChildProcess, fork } from 'node:child_process';
import path from 'node:path';
import {
  createMessageConnection,
  IPCMessageReader,
  IPCMessageWriter,
  type MessageConnection,
} from 'vscode-jsonrpc/node';

export const URI = 'file:///shop/part.nc';

export interface Hint {
  position: { line: number; character: number };
}

/** The bundled server in a process of its own, spoken to as the extension does. */
export class ServerProcess {
  readonly connection: MessageConnection;
  private version = 1;
  private heard: (version: number) => void = () => undefined;

  /** True when the review of the last version has come to rest, its stock too. */
  atRest = false;

  private constructor(
    private readonly child: ChildProcess,
    files: Readonly<Record<string, string>>,
  ) {
    this.connection = createMessageConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
    this.connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) =>
      items.map(() => ({ hints: { level: 'every' } })),
    );
    this.connection.onRequest('client/registerCapability', () => null);
    this.connection.onRequest('workspace/inlayHint/refresh', () => null);
    this.connection.onRequest('tapeproof/readFile', ({ uri }: { uri: string }) =>
      files[uri] === undefined ? { missing: 'not there' } : { text: files[uri], modified: 0 },
    );
    this.connection.onNotification(
      'tapeproof/status',
      ({ version, busy }: { version: number; busy: boolean }) => {
        this.atRest = version === this.version && !busy;
      },
    );
    this.connection.onNotification('textDocument/publishDiagnostics', ({ version }: { version: number }) =>
      this.heard(version),
    );
    this.connection.listen();
  }

  /** Starts it and waits for the answer to `initialize`; `compiled` is the folder of what earlier starts compiled. Findings are sent without the pause that spares a person's eyes. */
  static async start(
    root: string,
    compiled?: string,
    files: Readonly<Record<string, string>> = {},
  ): Promise<ServerProcess> {
    const kept = compiled ? [`--compiled=${compiled}`] : [];
    const child = fork(path.join(root, 'dist/server.node.js'), ['--node-ipc', ...kept], {
      execArgv: [],
      silent: true,
    });
    const server = new ServerProcess(child, files);
    await server.connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: 'file:///shop',
      workspaceFolders: null,
      initializationOptions: { findings_pause_ms: 0 },
      capabilities: { workspace: { configuration: true } },
    });
    return server;
  }

  async open(text: string): Promise<void> {
    await this.connection.sendNotification('initialized', {});
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri: URI, languageId: 'rs274', version: 1, text },
    });
  }

  /** Changes a range; `[line, character]`. Gives the document's new version. */
  change(start: [number, number], end: [number, number], text: string): number {
    this.version++;
    this.atRest = false;
    const range = {
      start: { line: start[0], character: start[1] },
      end: { line: end[0], character: end[1] },
    };
    void this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: URI, version: this.version },
      contentChanges: [{ range, text }],
    });
    return this.version;
  }

  hints(first: number, lines: number): Promise<Hint[]> {
    return this.connection.sendRequest('textDocument/inlayHint', {
      textDocument: { uri: URI },
      range: { start: { line: first, character: 0 }, end: { line: first + lines - 1, character: 0 } },
    });
  }

  /** A request that the server answers with nothing at once. */
  empty(): Promise<unknown> {
    return this.connection.sendRequest('textDocument/inlayHint', {
      textDocument: { uri: 'file:///shop/none.nc' },
      range: { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } },
    });
  }

  /** Resolves when the findings of a version came. */
  findings(version: number): Promise<void> {
    return new Promise(done => {
      this.heard = heard => {
        if (heard === version) done();
      };
    });
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    await new Promise(done => this.child.once('exit', done));
    this.connection.dispose();
  }
}
