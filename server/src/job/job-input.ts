import type { EngineOptions } from '../review/engine.ts';
import type { Review } from '../review/review.ts';
import type { Reading } from '../rs274/index.ts';
import type { JobFiles } from './job-files.ts';
import type { SheetReading } from './sheet-reading.ts';

/** A program, the files beside it and how it is to be read. */
export interface JobInput {
  bytes: Uint8Array;
  name: string;
  files: JobFiles;
  dialect?: string;
  kind?: string;
  least_increment?: number | 'none';
  shown?: 'program' | 'inch' | 'mm';
  /** Work the stock out too, where the sheet lets it. */
  cut?: boolean;
  severities?: EngineOptions['severities'];
  /** Bytes of a called program from the same folder. */
  resolveFile?: (name: string) => Uint8Array | undefined;
  /** Bytes of a file that the sheet names, by its path from the program's folder. */
  readBeside?: (path: string) => Uint8Array | undefined;
  /** Programs whose stock is asked for, from the one that was opened to this one. */
  chain?: readonly string[];
}

/** A program with its review and its sheets. */
export interface OpenedJob {
  reading: Reading;
  review: Review;
  sheets: SheetReading;
}
