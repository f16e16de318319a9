// What client and server say to each other beyond the language server protocol. The server has the same shapes on its side.

/** A place in a document: lines and characters from 0, as in the language server protocol. */
export interface Place {
  line: number;
  character: number;
}

export interface Span {
  start: Place;
  end: Place;
}

/** What a client may say when it starts the server; another editor says nothing. */
export interface InitializationOptions {
  /** The client carries out our commands: links to them may be sent. */
  commands?: boolean;
  /** Pause after the last key before findings are sent; for tests. */
  findings_pause_ms?: number;
}

/** Sent with every request `tapeproof/<name>`; `args` are those of a link in a hint, hover or code action. */
export interface CommandParams {
  uri: string;
  position?: Place;
  args: unknown[];
}

/**
 * What the editor is to do about a command. The server decides, the client only carries out:
 * - `say`: a message; with `detail` it stays until answered.
 * - `edit`: text changes of one file, undone in one step; `label` says what they do; `create` is the whole text when there is no such file yet.
 * - `open`: shows a file at a span; `content` is what a file that is not there yet is to hold (opened unsaved).
 * - `page`: shows text beside the editor; `file` is the name under which it is offered for saving.
 * - `ask`: lets the person choose and sends `request` again with the chosen value as the last of `args`.
 */
export type Answer =
  | { do: 'say'; severity: 'information' | 'warning' | 'error'; text: string; detail?: string }
  | { do: 'edit'; label: string; uri: string; edits: { range: Span; newText: string }[]; create?: string }
  | { do: 'open'; uri: string; range?: Span; content?: string }
  | { do: 'page'; title: string; format: 'markdown' | 'html' | 'text'; content: string; file?: string }
  | { do: 'ask'; title: string; choices: Choice[]; many?: boolean; request: string; args: unknown[] };

export interface Choice {
  label: string;
  description?: string;
  detail?: string;
  value: unknown;
  picked?: boolean;
}

/** Notification `tapeproof/status`: what is known about one program, in words that stand alone. */
export interface Status {
  uri: string;
  /** Version of the text that was reviewed. */
  version: number;
  text: string;
  detail?: string;
  severity?: 'information' | 'warning' | 'error';
  /** True while figures of the stock are still to come. */
  busy?: boolean;
}

/** Request `tapeproof/readFile`: all file access of the server goes through the editor, so remote and browser folders work. */
export interface ReadFileParams {
  uri: string;
  /** Refused above this many bytes. */
  most_bytes: number;
}

export type ReadFileResult =
  | { text: string; modified: number }
  | { missing: 'not there' | 'too large' | 'not readable'; detail?: string };

/** Request `tapeproof/listFolder`: names in a folder, folders with a slash at the end; empty when it cannot be read. */
export interface ListFolderParams {
  uri: string;
}

export const request = {
  command: (name: string) => `tapeproof/${name}`,
  readFile: 'tapeproof/readFile',
  listFolder: 'tapeproof/listFolder',
} as const;

export const notification = {
  /** Server to client. */
  status: 'tapeproof/status',
  /** Client to server: files may have changed without a watcher's notice (the window has the focus again). */
  recheckFiles: 'tapeproof/recheckFiles',
} as const;
