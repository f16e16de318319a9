import { closeSync, fstatSync, openSync, read, statSync } from 'node:fs';

/** A program that is being read. */
interface EarlyRead {
  path: string;
  bytes: Promise<Uint8Array | undefined>;
}

/** The start file and the body are two bundles: this is where they meet. */
const SLOT = Symbol.for('tapeproof.early-read');
const slot = globalThis as { [SLOT]?: EarlyRead };

/** Shorter programs are read when they are wanted. */
const LEAST_BYTES = 1 << 20;
/** Larger programs are refused with a message rather than with a crash. */
export const MOST_BYTES = 1_000_000_000;

/** Begins to read the long program that a command names last, while the rest of the command line is still loading. */
export function beginReading(argv: readonly string[]): void {
  const path = argv[argv.length - 1];
  if (path === undefined || path.startsWith('-')) return;
  try {
    // A pipe must not be opened here: it gives what it holds to the first who reads.
    const facts = statSync(path);
    if (!facts.isFile() || facts.size < LEAST_BYTES || facts.size > MOST_BYTES) return;
    slot[SLOT] = { path, bytes: readWhole(openSync(path, 'r'), facts.size) };
  } catch {
    // Whoever wants the file will say why it cannot be read.
  }
}

/** The bytes of a program where its reading was begun early and came to its end; once. */
export async function readEarly(path: string): Promise<Uint8Array | undefined> {
  const begun = slot[SLOT];
  if (begun?.path !== path) return undefined;
  slot[SLOT] = undefined;
  return begun.bytes;
}

function readWhole(descriptor: number, size: number): Promise<Uint8Array | undefined> {
  const bytes = Buffer.allocUnsafeSlow(size);
  return new Promise(done => {
    read(descriptor, bytes, 0, size, 0, (error, length) => {
      const whole = !error && length === size && fstatSync(descriptor).size === size;
      closeSync(descriptor);
      done(whole ? bytes : undefined);
    });
  });
}
