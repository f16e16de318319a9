import * as vscode from 'vscode';
import type { Status } from '../../server/src/lsp/protocol.ts';
import { fileInFront } from './answers.ts';
import { commandId } from './tables/commands.ts';
import type { HintLevel } from './tables/settings.ts';

const ours: vscode.DocumentSelector = [{ language: 'rs274' }];
const severities = {
  information: vscode.LanguageStatusSeverity.Information,
  warning: vscode.LanguageStatusSeverity.Warning,
  error: vscode.LanguageStatusSeverity.Error,
};
const hintWords: Record<HintLevel, string> = {
  off: 'hints: off',
  changes: 'hints: changes',
  every: 'hints: every block',
};

/** The language status items: what is known about the program in front, and how much is shown beside its lines. */
export class StatusItems implements vscode.Disposable {
  // The editor lists them by identifier; the program comes first.
  private readonly hints = vscode.languages.createLanguageStatusItem('tapeproof.shown', ours);
  private readonly review = vscode.languages.createLanguageStatusItem('tapeproof.program', ours);
  /** For a program that the editor gives to no extension: it lists no language item for it. */
  private readonly too_large = vscode.window.createStatusBarItem(
    'tapeproof.tooLarge',
    vscode.StatusBarAlignment.Right,
    100,
  );
  private readonly known = new Map<string, Status>();
  private readonly listening: vscode.Disposable;

  constructor() {
    this.review.name = 'Tapeproof: review';
    this.hints.name = 'Tapeproof: hints';
    this.too_large.name = 'Tapeproof: program too large';
    this.hints.command = { command: commandId('cycleHints'), title: 'Change' };
    this.clear();
    this.listening = vscode.Disposable.from(
      vscode.window.onDidChangeActiveTextEditor(() => this.show()),
      vscode.window.tabGroups.onDidChangeTabs(() => this.show()),
      vscode.workspace.onDidCloseTextDocument(document => this.known.delete(document.uri.toString())),
      vscode.workspace.onDidChangeConfiguration(change => {
        if (change.affectsConfiguration('tapeproof.hints.level')) this.show();
      }),
    );
  }

  /** Keeps what the server says about a program and shows it when that program is in front. */
  take(status: Status): void {
    // The server may write an address with other escapes than the editor does.
    this.known.set(vscode.Uri.parse(status.uri).toString(), status);
    this.show();
  }

  /** The server is gone: says why and offers to start it again. */
  fail(reason: string): void {
    this.known.clear();
    this.review.busy = false;
    this.review.text = 'no review';
    this.review.detail = reason;
    this.review.severity = vscode.LanguageStatusSeverity.Error;
    this.review.command = { command: commandId('restartServer'), title: 'Start again' };
  }

  clear(): void {
    this.known.clear();
    this.review.text = 'reading the program';
    this.review.detail = undefined;
    this.review.severity = vscode.LanguageStatusSeverity.Information;
    this.review.command = undefined;
    this.show();
  }

  dispose(): void {
    this.listening.dispose();
    this.review.dispose();
    this.hints.dispose();
    this.too_large.dispose();
  }

  /** A program in front without a text editor is one that the editor gives to no extension. */
  private showTooLarge(uri: vscode.Uri | undefined): void {
    if (!uri || !programs.test(uri.path)) {
      this.too_large.hide();
      return;
    }
    this.too_large.text = '$(warning) no hints over 50 million characters: review from disk';
    this.too_large.tooltip =
      'The editor gives so large a program to no extension. The review reads it from the disk.';
    this.too_large.accessibilityInformation = {
      label:
        'No hints: over 50 million characters the editor gives a program to no extension. Review from disk',
      role: 'button',
    };
    this.too_large.command = {
      command: commandId('reviewFromDisk'),
      title: 'Review From Disk',
      arguments: [uri.toString()],
    };
    this.too_large.show();
  }

  private show(): void {
    const uri = vscode.window.activeTextEditor?.document.uri;
    const level = vscode.workspace
      .getConfiguration('tapeproof', uri)
      .get<HintLevel>('hints.level', 'changes');
    this.hints.text = hintWords[level];
    this.showTooLarge(uri ? undefined : fileInFront());
    const status = uri && this.known.get(uri.toString());
    if (!status) return;
    this.review.text = status.text;
    this.review.detail = shortened(status.detail, oneLine - status.text.length);
    this.review.accessibilityInformation = { label: [status.text, status.detail].filter(Boolean).join('. ') };
    this.review.severity = severities[status.severity ?? 'information'];
    this.review.busy = status.busy ?? false;
    this.review.command = { command: commandId('chooseDialect'), title: 'Change' };
  }
}

/** Endings of programs, as the manifest names them. */
const programs = /\.(nc|ngc|tap|cnc|eia)$/i;

/** The editor shows an item on one line of about so many characters, its command last; what is too long hides the command. */
const oneLine = 62;

function shortened(detail: string | undefined, most: number): string | undefined {
  if (detail === undefined || detail.length <= most) return detail;
  const end = detail.lastIndexOf(' ', most - 2);
  return end < 8 ? undefined : `${detail.slice(0, end)} …`;
}
