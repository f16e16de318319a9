import type { Position, Range, TextDocumentContentChangeEvent } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { ProgramText, type Reading } from '../rs274/index.ts';

/** An open program: the editor's text document over our own storage, so that a key costs microseconds. */
export class OpenProgram implements TextDocument {
  text: ProgramText;
  /** The reading; undefined until something asks for it. It follows the edits when it is asked to (read-on.ts). */
  reading: Reading | undefined;

  constructor(
    readonly uri: string,
    readonly languageId: string,
    public version: number,
    content: string,
  ) {
    this.text = ProgramText.fromString(content);
  }

  get lineCount(): number {
    return this.text.lineCount;
  }

  getText(range?: Range): string {
    return this.text.getText(range);
  }

  positionAt(offset: number): Position {
    return this.text.positionAt(offset);
  }

  offsetAt(position: Position): number {
    return this.text.offsetAt(position);
  }

  update(changes: readonly TextDocumentContentChangeEvent[], version: number): void {
    for (const change of changes) {
      if (!('range' in change)) {
        this.text = ProgramText.fromString(change.text);
        this.reading = undefined;
        continue;
      }
      const start = this.text.offsetAt(change.range.start);
      const end = this.text.offsetAt(change.range.end);
      this.text.edit(start, end, change.text);
    }
    this.version = version;
  }
}
