import type {
  Connection,
  InitializeParams,
  InitializeResult,
  ServerCapabilities,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { EditorFiles } from './editor-files.ts';
import { features } from './features.ts';
import { Jobs } from './jobs.ts';
import {
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  TextDocumentSyncKind,
  TextDocuments,
} from './library.ts';
import { OpenProgram } from './open-program.ts';
import { type InitializationOptions, notification } from './protocol.ts';
import { Publisher } from './publisher.ts';
import type { Server } from './server.ts';
import { SettingsStore } from './settings.ts';
import { SheetPublisher } from './sheet-publisher.ts';
import { WatchedFiles } from './watched-files.ts';
import { type Post, StockWork } from './work/stock-work.ts';

/** The whole language server, the same for Node and for the browser worker. */
export function serve(connection: Connection, worker: Post): void {
  const documents = new TextDocuments<TextDocument>({
    create: (uri, languageId, version, content) =>
      languageId === 'rs274'
        ? new OpenProgram(uri, languageId, version, content)
        : TextDocument.create(uri, languageId, version, content),
    update(document, changes, version) {
      if (!(document instanceof OpenProgram)) return TextDocument.update(document, changes, version);
      document.update(changes, version);
      return document;
    },
  });
  let folders: string[] = [];
  const program = (uri: string) => {
    const document = documents.get(uri);
    return document instanceof OpenProgram ? document : undefined;
  };
  const settings = new SettingsStore(connection, false);
  const files = new EditorFiles(
    connection,
    uri => {
      const document = documents.get(uri);
      return document && !(document instanceof OpenProgram) ? document.getText() : undefined;
    },
    () => folders,
  );
  const watched = new WatchedFiles(connection);
  const jobs = new Jobs(
    files,
    program,
    uri => settings.of(uri),
    new StockWork(worker),
    (uri, finished) => {
      // findings of half a stock would be findings of another part, and cost what a person who types would feel
      if (finished) publisher.soon(uri);
      publisher.refreshHints();
    },
    (folder, uri) => watched.watch(folder, uri),
  );
  const sheets = new SheetPublisher(connection, uri => documents.get(uri));
  const openPrograms = () =>
    documents
      .all()
      .filter(d => d instanceof OpenProgram)
      .map(d => d.uri);
  const publisher = new Publisher(connection, jobs, settings, openPrograms, sheets);
  const server: Server = { connection, jobs, files, settings, publisher, program };

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    folders = params.workspaceFolders?.map(folder => folder.uri) ?? [];
    const { findings_pause_ms, commands } = (params.initializationOptions ?? {}) as InitializationOptions;
    if (typeof findings_pause_ms === 'number') publisher.pause_ms = findings_pause_ms;
    publisher.links = commands === true;
    watched.initialize(params.capabilities);
    settings.canAsk = params.capabilities.workspace?.configuration === true;
    const capabilities: ServerCapabilities = {
      textDocumentSync: TextDocumentSyncKind.Incremental,
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    };
    for (const feature of features) Object.assign(capabilities, feature.capabilities);
    return { capabilities, serverInfo: { name: 'tapeproof' } };
  });
  connection.onInitialized(() => {
    connection.workspace.onDidChangeWorkspaceFolders(change => {
      const gone = new Set(change.removed.map(folder => folder.uri));
      folders = [...folders.filter(uri => !gone.has(uri)), ...change.added.map(folder => folder.uri)];
      refreshAll();
    });
    if (settings.canAsk)
      void connection.client.register(DidChangeConfigurationNotification.type, { section: 'tapeproof' });
  });
  const refreshAll = () => {
    files.forget();
    jobs.refresh();
    publisher.all();
  };
  connection.onDidChangeConfiguration(() => {
    settings.forget();
    publisher.all();
  });
  connection.onNotification(DidChangeWatchedFilesNotification.type, refreshAll);
  connection.onNotification(notification.recheckFiles, refreshAll);
  documents.onDidChangeContent(({ document }) => {
    if (document instanceof OpenProgram) {
      publisher.soon(document.uri);
      jobs.changedBeside(document.uri);
    } else if (isSheet(document.uri)) {
      jobs.refresh();
      sheets.text(document.uri, document);
      publisher.all();
    }
  });
  documents.onDidClose(({ document }) => {
    jobs.forget(document.uri);
    publisher.clear(document.uri);
    jobs.changedBeside(document.uri);
    if (isSheet(document.uri)) refreshAll();
  });
  for (const feature of features) feature.register(server);
  documents.listen(connection);
  connection.listen();
}

function isSheet(uri: string): boolean {
  return /(\.setup|\/crib)\.json$/.test(uri);
}
