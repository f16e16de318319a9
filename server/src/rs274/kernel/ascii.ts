import { byteAt, highFrom } from './memory.ts';

/** Whether the first `length` bytes of the text are all below 128. */
export function isLow(length: i32): bool {
  const sixteens = length & ~15;
  for (let at = 0; at < sixteens; at += 16) if (highFrom(at) !== 0) return false;
  for (let at = sixteens; at < length; at++) if (byteAt(at) >= 128) return false;
  return true;
}
