import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import {
  CancellationTokenSource,
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');

/** Files of a scenario by name; the server asks the client for them, as it asks the editor. */
export type Files = Record<string, string>;

const FOLDER = 'file:///shop';

export interface Place {
  line: number;
  character: number;
}

export interface Span {
  start: Place;
  end: Place;
}

export interface Problem {
  range: Span;
  message: string;
  code?: string;
  codeDescription?: { href: string };
  severity?: number;
  source?: string;
  relatedInformation?: { location: { uri: string; range: Span }; message: string }[];
}

export interface Edit {
  range: Span;
  newText: string;
}

let built: string | undefined;

/** The server and its worker as they run in the editor, built once for all tests of this process. */
function builtServer(): string {
  if (built) return built;
  const scratch = mkdtempSync(path.join(tmpdir(), 'tapeproof-protocol-'));
  process.once('exit', () => rmSync(scratch, { recursive: true, force: true }));
  buildSync({
    entryPoints: {
      'server.node': path.join(root, 'server/src/lsp/node/main.ts'),
      'worker.node': path.join(root, 'server/src/lsp/node/worker.ts'),
    },
    outdir: scratch,
    outExtension: { '.js': '.js' },
    bundle: true,
    platform: 'node',
    format: 'cjs',
    mainFields: ['module', 'main'],
    logLevel: 'error',
  });
  built = path.join(scratch, 'server.node.js');
  return built;
}

interface Watcher {
  globPattern: { pattern: string };
}

/** A real server process over standard input and output, with a small editor on the other side. */
export class Session {
  readonly diagnostics = new Map<string, Problem[]>();
  readonly status = new Map<
    string,
    { text: string; detail?: string; busy?: boolean; severity?: string; version?: number }
  >();
  /** What the server logged as error or warning, showed as a message, or wrote to standard error. */
  readonly errors: string[] = [];
  settings: Record<string, unknown> = {};
  /** What the server promised in its answer to `initialize`. */
  capabilities: Record<string, unknown> = {};
  /** How often the server asked the editor to ask for the hints again. */
  hint_refreshes = 0;
  /** Files that the server asked the editor to watch, by name. */
  readonly watched = new Set<string>();
  private versions = new Map<string, number>();
  private waiting: (() => void)[] = [];

  private constructor(
    private readonly process: ChildProcess,
    readonly connection: MessageConnection,
    readonly files: Files,
  ) {}

  static async start(files: Files, options: Record<string, unknown> = {}): Promise<Session> {
    const child = spawn(process.execPath, [builtServer(), '--stdio'], { stdio: ['pipe', 'pipe', 'pipe'] });
    const connection = createMessageConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const session = new Session(child, connection, files);
    child.stderr.setEncoding('utf8').on('data', text => session.errors.push(text));
    session.listen();
    const { capabilities } = await connection.sendRequest<{ capabilities: Record<string, unknown> }>(
      'initialize',
      {
        processId: process.pid,
        rootUri: FOLDER,
        workspaceFolders: [{ uri: FOLDER, name: 'shop' }],
        initializationOptions: { findings_pause_ms: 5, ...options },
        capabilities: {
          workspace: {
            configuration: true,
            workspaceFolders: true,
            inlayHint: { refreshSupport: true },
            didChangeWatchedFiles: { dynamicRegistration: true, relativePatternSupport: true },
          },
          textDocument: { inlayHint: {} },
        },
      },
    );
    session.capabilities = capabilities;
    await connection.sendNotification('initialized', {});
    return session;
  }

  private listen(): void {
    const { connection } = this;
    const wake = () => {
      for (const go of this.waiting.splice(0)) go();
    };
    connection.onRequest('workspace/configuration', (params: { items: unknown[] }) =>
      params.items.map(() => this.settings),
    );
    connection.onRequest('workspace/inlayHint/refresh', () => {
      this.hint_refreshes++;
      wake();
      return null;
    });
    connection.onRequest(
      'client/registerCapability',
      ({ registrations }: { registrations: { registerOptions?: { watchers?: Watcher[] } }[] }) => {
        for (const { registerOptions } of registrations)
          for (const { globPattern } of registerOptions?.watchers ?? [])
            this.watched.add(globPattern.pattern);
        return null;
      },
    );
    connection.onRequest('tapeproof/readFile', ({ uri }: { uri: string }) => {
      const text = uri.startsWith(FOLDER)
        ? this.files[decodeURIComponent(uri.slice(FOLDER.length + 1))]
        : undefined;
      return text === undefined ? { missing: 'not there' } : { text, modified: 0 };
    });
    connection.onNotification(
      'textDocument/publishDiagnostics',
      (params: { uri: string; diagnostics: Problem[] }) => {
        this.diagnostics.set(params.uri, params.diagnostics);
        wake();
      },
    );
    connection.onNotification('tapeproof/status', (params: { uri: string; text: string }) => {
      this.status.set(params.uri, params);
      wake();
    });
    connection.onNotification('window/logMessage', (params: { type: number; message: string }) => {
      if (params.type <= 2) this.errors.push(params.message);
    });
    connection.onNotification('window/showMessage', (params: { message: string }) => {
      this.errors.push(params.message);
    });
    connection.listen();
  }

  uri(name: string): string {
    return `${FOLDER}/${encodeURI(name)}`;
  }

  async open(name: string, languageId = 'rs274'): Promise<string> {
    const uri = this.uri(name);
    await this.openText(uri, this.files[name] ?? '', languageId);
    return uri;
  }

  /** Opens a document of any scheme. */
  async openText(uri: string, text: string, languageId = 'rs274'): Promise<void> {
    this.versions.set(uri, 1);
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId, version: 1, text },
    });
  }

  /** Replaces a range of an open document. */
  edit(uri: string, start: [number, number], end: [number, number], text: string): Promise<void> {
    const range = {
      start: { line: start[0], character: start[1] },
      end: { line: end[0], character: end[1] },
    };
    return this.change(uri, [{ range, text }]);
  }

  /** One notice of changes; a change without a range replaces the whole text. */
  change(uri: string, contentChanges: readonly { range?: Span; text: string }[]): Promise<void> {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    this.status.clear();
    return this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges,
    });
  }

  /** Writes a file as another program would, and tells the server as the editor's watcher does. */
  async write(name: string, text: string | undefined): Promise<void> {
    if (text === undefined) delete this.files[name];
    else this.files[name] = text;
    await this.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: this.uri(name), type: text === undefined ? 3 : 2 }],
    });
  }

  async shut(uri: string): Promise<void> {
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  request<T>(method: string, params: unknown): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  /** A request of the language server protocol about one document. */
  ask<T>(feature: string, uri: string, rest: Record<string, unknown> = {}): Promise<T> {
    return this.request<T>(`textDocument/${feature}`, { textDocument: { uri }, ...rest });
  }

  /** A command of the extension; the answer as the client gets it. */
  command<T>(name: string, uri: string, position?: Place, args: readonly unknown[] = []): Promise<T> {
    return this.request<T>(`tapeproof/${name}`, { uri, ...(position ? { position } : {}), args });
  }

  /** Problems of a document when the review of its present text has come to rest. */
  async settled(uri: string): Promise<Problem[]> {
    const version = this.versions.get(uri);
    const atRest = () => {
      const status = this.status.get(uri);
      return status?.version === version && status?.busy === false;
    };
    await this.until(atRest, `the review of ${uri}`);
    return this.diagnostics.get(uri) ?? [];
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

  /** Sends a request and cancels it at once: the code of the error it ends with, none where it was answered all the same. */
  async cancelled(method: string, params: unknown): Promise<number | undefined> {
    const source = new CancellationTokenSource();
    const answer = this.connection.sendRequest(method, params, source.token);
    source.cancel();
    try {
      await answer;
      return undefined;
    } catch (error) {
      return (error as { code: number }).code;
    }
  }

  /** The editor is gone without a word. */
  hangUp(): void {
    this.process.stdin?.end();
  }

  /** Exit code of the server, once it has ended. */
  async ended(): Promise<number | null> {
    if (this.process.exitCode !== null) return this.process.exitCode;
    return new Promise(done => this.process.on('exit', done));
  }

  async close(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const code = await this.ended();
    this.connection.dispose();
    if (code !== 0) throw new Error(`the server ended with ${code}`);
  }
}

/** Ends a session; anything that the server logged as an error or warning fails it. */
async function closeClean(session: Session): Promise<void> {
  await session.close();
  if (session.errors.length > 0) throw new Error(`the server logged: ${session.errors.join('\n')}`);
}

/** Runs a scenario in a session of its own. */
export async function inSession(
  files: Files,
  scenario: (session: Session) => Promise<void>,
  options: Record<string, unknown> = {},
): Promise<void> {
  const session = await Session.start(files, options);
  try {
    await scenario(session);
  } catch (error) {
    await session.close();
    throw error;
  }
  await closeClean(session);
}

/** One session for all cases of a `describe`, started before them and closed after them. */
export function sharedSession(files: Files): () => Session {
  let session: Session | undefined;
  before(async () => {
    session = await Session.start(files);
  });
  after(async () => {
    if (session) await closeClean(session);
  });
  return () => {
    if (!session) throw new Error('no session');
    return session;
  };
}
