import {
  type ClientCapabilities,
  type Connection,
  DidChangeWatchedFilesNotification,
} from 'vscode-languageserver';
import { URI, Utils } from 'vscode-uri';

/** Files that the client is asked to watch, one by one, as reviews come to rest on them. Sheets and cribs it watches anyway. */
export class WatchedFiles {
  private readonly asked = new Set<string>();
  private can: NonNullable<ClientCapabilities['workspace']>['didChangeWatchedFiles'];

  constructor(private readonly connection: Connection) {}

  initialize(capabilities: ClientCapabilities): void {
    this.can = capabilities.workspace?.didChangeWatchedFiles;
  }

  /** Without a client that watches, the change is seen when the window gets the focus again. */
  watch(folder: string, uri: string): void {
    if (!this.can?.dynamicRegistration || this.asked.has(uri)) return;
    this.asked.add(uri);
    const name = Utils.basename(URI.parse(uri)).replaceAll(/[[\]{}*?]/g, '[$&]');
    const globPattern = this.can.relativePatternSupport ? { baseUri: folder, pattern: name } : `**/${name}`;
    this.connection.client
      .register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern }] })
      .catch(error => this.connection.console.log(`watching ${uri}: ${String(error)}`));
  }
}
