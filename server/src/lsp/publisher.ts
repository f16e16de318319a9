import type { Connection } from 'vscode-languageserver';
import { diagnosticsOf } from './diagnostics.ts';
import type { Jobs } from './jobs.ts';
import { notification } from './protocol.ts';
import type { SettingsStore } from './settings.ts';
import type { SheetPublisher } from './sheet-publisher.ts';
import { statusOf } from './status-words.ts';
import { later } from './turns.ts';

/** Sends findings and status, a moment after the last change, one program at a time. */
export class Publisher {
  /** After the last key, milliseconds. */
  pause_ms = 150;
  /** Whether the client has our commands, so that a finding's code can lead to its page. */
  links = false;
  private readonly waiting = new Map<string, () => void>();

  constructor(
    private readonly connection: Connection,
    private readonly jobs: Jobs,
    private readonly settings: SettingsStore,
    private readonly openPrograms: () => readonly string[],
    private readonly sheets: SheetPublisher,
  ) {}

  soon(uri: string): void {
    this.waiting.get(uri)?.();
    this.waiting.set(
      uri,
      later(this.pause_ms, () => {
        this.waiting.delete(uri);
        this.publish(uri).catch(error =>
          this.connection.console.error(`findings of ${uri}: ${String(error)}`),
        );
      }),
    );
  }

  all(): void {
    for (const uri of this.openPrograms()) this.soon(uri);
    this.refreshHints();
  }

  /** Asks the editor to ask for the hints again. */
  refreshHints(): void {
    this.connection.languages.inlayHint
      .refresh()
      .catch(error => this.connection.console.log(`hint refresh: ${String(error)}`));
  }

  clear(uri: string): void {
    this.waiting.get(uri)?.();
    this.waiting.delete(uri);
    void this.connection.sendDiagnostics({ uri, diagnostics: this.sheets.of(uri) });
    this.sheets.review(uri, undefined);
  }

  private async publish(uri: string): Promise<void> {
    const { maxProblems } = await this.settings.of(uri);
    const job = await this.jobs.job(uri);
    if (!job) return;
    // Findings are worked out now, of this version, without waiting.
    const { version } = job.program;
    await this.connection.sendDiagnostics({
      uri,
      version,
      diagnostics: diagnosticsOf(job.review, uri, maxProblems, this.links),
    });
    // Of a newer version all this is said again.
    if (job.program.version !== version || !this.openPrograms().includes(uri)) return;
    this.sheets.review(uri, job.review);
    void this.connection.sendNotification(notification.status, statusOf(job, uri));
  }
}
