import type { Connection } from 'vscode-languageserver';
import { URI, Utils } from 'vscode-uri';
import type { JobHost } from '../job/job-files.ts';
import { type ReadFileParams, type ReadFileResult, request } from './protocol.ts';

const MOST_BYTES = 8_000_000;
const MOST_PROGRAM_BYTES = 64_000_000;

/** Files through the editor, so that remote folders and the browser work alike. URIs end to end. */
export class EditorFiles implements JobHost {
  private readonly held = new Map<string, Promise<ReadFileResult>>();

  constructor(
    private readonly connection: Connection,
    /** Text of an open document, saved or not. */
    private readonly openText: (uri: string) => string | undefined,
    private readonly folders: () => readonly string[],
  ) {}

  /** Forgets what was read: files may have changed. */
  forget(): void {
    this.held.clear();
  }

  async read(uri: string): Promise<Uint8Array | undefined> {
    const text = await this.text(uri);
    return text === undefined ? undefined : new TextEncoder().encode(text);
  }

  /** Text of a file; undefined when it is not there or too large. */
  async text(uri: string, most_bytes = MOST_BYTES): Promise<string | undefined> {
    const result = await this.found(uri, most_bytes);
    return 'text' in result ? result.text : undefined;
  }

  /** A program that is not open as one, or why it cannot be had. */
  program(uri: string): Promise<ReadFileResult> {
    return this.found(uri, MOST_PROGRAM_BYTES);
  }

  private async found(uri: string, most_bytes: number): Promise<ReadFileResult> {
    const open = this.openText(uri);
    if (open !== undefined) return { text: open, modified: 0 };
    let reading = this.held.get(uri);
    if (!reading) {
      reading = this.fromDisk(uri, most_bytes);
      this.held.set(uri, reading);
    }
    return reading;
  }

  /** A file as it is on the disk, or why it cannot be had. It is not kept. */
  fromDisk(uri: string, most_bytes: number): Promise<ReadFileResult> {
    const asked: ReadFileParams = { uri, most_bytes };
    return this.connection.sendRequest<ReadFileResult>(request.readFile, asked);
  }

  parent(uri: string): string | undefined {
    const here = URI.parse(uri);
    const folder = Utils.dirname(here);
    return folder.path === here.path ? undefined : folder.toString();
  }

  name(uri: string): string {
    return Utils.basename(URI.parse(uri));
  }

  join(folder: string, name: string): string {
    return Utils.joinPath(URI.parse(folder), name).toString();
  }

  async isTop(folder: string): Promise<boolean> {
    const bare = folder.replace(/\/$/, '');
    return this.folders().some(root => root.replace(/\/$/, '') === bare);
  }
}
