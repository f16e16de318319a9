import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';

/** Makes the language client of one host; the library behind it is loaded on the first call and not before. */
export type MakeClient = (options: LanguageClientOptions) => Promise<BaseLanguageClient>;

/** The language server's life: started when first needed, one at a time, started anew on request. */
export class Session implements vscode.Disposable {
  private running: Promise<BaseLanguageClient> | undefined;
  private readonly failed = new vscode.EventEmitter<string>();
  readonly onFailure = this.failed.event;

  constructor(
    private readonly make: MakeClient,
    private readonly options: () => LanguageClientOptions,
    private readonly prepare: (client: BaseLanguageClient) => void,
  ) {}

  /** The running client, started now when there is none. */
  client(): Promise<BaseLanguageClient> {
    this.running ??= this.start();
    return this.running;
  }

  /** Starts the server when it is not running; a failure is told to those who listen for it. */
  wake(): void {
    void this.client().then(undefined, error => console.error('tapeproof:', error));
  }

  /** Sends a notification if the server runs; does not start it. */
  tell(method: string, params: object): void {
    const send = (client: BaseLanguageClient) => client.sendNotification(method, params);
    this.running?.then(send).catch(error => console.error(`tapeproof: ${method}:`, error));
  }

  async restart(): Promise<void> {
    await this.stop();
    await this.client();
  }

  async dispose(): Promise<void> {
    await this.stop();
    this.failed.dispose();
  }

  private async start(): Promise<BaseLanguageClient> {
    const client = await this.make(this.options());
    this.prepare(client);
    // 1 is `Stopped`; named by number so that the library stays unloaded until it is needed.
    client.onDidChangeState(({ newState }) => {
      if (newState === 1 && this.running) this.failed.fire('The review ended unexpectedly.');
    });
    try {
      await client.start();
    } catch (error) {
      this.running = undefined;
      this.failed.fire(`The review could not be started: ${error instanceof Error ? error.message : error}`);
      throw error;
    }
    return client;
  }

  private async stop(): Promise<void> {
    const running = this.running;
    this.running = undefined;
    if (!running) return;
    try {
      const client = await running;
      await client.dispose();
    } catch (error) {
      // A server that is dead already cannot be stopped; the next start is what counts.
      console.warn(`tapeproof: stopping the server: ${error}`);
    }
  }
}
