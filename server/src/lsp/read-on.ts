import type { Reading, StateField } from '../rs274/index.ts';

/** At most so long does reading go on before other questions are answered, milliseconds. */
const SLICE_MS = 12;
/** So long where the lines that are asked for have been read. */
const ENOUGH_MS = 2;

/** Reads on for a while where edits made that necessary: at least to the end, or to `line` and a little further. */
export function readOn(reading: Reading, line = Number.POSITIVE_INFINITY): void {
  const began = performance.now();
  reading.refresh(next => performance.now() - began > (next > line ? ENOUGH_MS : SLICE_MS));
}

/** State that decides which blocks run and with which tool: where it goes on unchanged, tools are known without reading on. */
const TOOL_STATE: readonly StateField[] = ['tool', 'prepared_tool', 'skip_until_n', 'ended', 'begun'];

/**
 * Lines from the first that can be told of while the rest is still to be read again; none where what is changed reaches
 * the tools of the rest, since what is known of a tool may be written anywhere.
 */
export function rightLines(reading: Reading): number {
  return reading.whole || reading.keeps(TOOL_STATE) ? reading.rightLines : 0;
}
