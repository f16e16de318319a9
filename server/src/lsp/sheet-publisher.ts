import type { Connection, Diagnostic } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Review } from '../review/review.ts';
import { readCrib, readSetupSheet } from '../setup/index.ts';
import { diagnosticOf } from './diagnostics.ts';
import { sheetDiagnostics } from './sheet-diagnostics.ts';

/**
 * Problems of setup sheets and cribs: those of their own text, for a sheet that is open, and what the review of an open
 * program found about the sheet that it rests on.
 */
export class SheetPublisher {
  /** What reviews found, by sheet and program. */
  private readonly found = new Map<string, Map<string, Diagnostic[]>>();

  constructor(
    private readonly connection: Connection,
    private readonly open: (uri: string) => TextDocument | undefined,
  ) {}

  /** The text of an open sheet is new. */
  text(uri: string, document: TextDocument): void {
    const text = document.getText();
    const { problems } = uri.endsWith('crib.json') ? readCrib(text, uri) : readSetupSheet(text, uri);
    const own = sheetDiagnostics(problems, document);
    const key = ({ code, range }: Diagnostic) => `${code} ${range.start.line} ${range.start.character}`;
    const there = new Set(own.map(key));
    const more = this.of(uri).filter(diagnostic => !there.has(key(diagnostic)));
    void this.connection.sendDiagnostics({
      uri,
      version: document.version,
      diagnostics: [...own, ...more],
    });
  }

  /** The review of a program is new; undefined when the program was closed. */
  review(program: string, review: Review | undefined): void {
    const now = new Map<string, Diagnostic[]>();
    for (const finding of review?.findings ?? []) {
      const { file } = finding;
      if (file === undefined || !SHEET.test(file)) continue;
      now.set(file, [...(now.get(file) ?? []), diagnosticOf(finding, file)]);
    }
    for (const [sheet, programs] of this.found) {
      if (now.has(sheet) || !programs.delete(program)) continue;
      if (programs.size === 0) this.found.delete(sheet);
      this.send(sheet);
    }
    for (const [sheet, diagnostics] of now) {
      const programs = this.found.get(sheet) ?? new Map<string, Diagnostic[]>();
      this.found.set(sheet, programs);
      if (JSON.stringify(programs.get(program)) === JSON.stringify(diagnostics)) continue;
      programs.set(program, diagnostics);
      this.send(sheet);
    }
  }

  /** What reviews found about a sheet, each once. */
  of(uri: string): Diagnostic[] {
    const all = [...(this.found.get(uri)?.values() ?? [])].flat();
    const texts = all.map(diagnostic => JSON.stringify(diagnostic));
    return all.filter((_, index) => texts.indexOf(texts[index]) === index);
  }

  private send(uri: string): void {
    const document = this.open(uri);
    if (document) this.text(uri, document);
    else void this.connection.sendDiagnostics({ uri, diagnostics: this.of(uri) });
  }
}

const SHEET = /(\.setup|\/crib)\.json$/;
