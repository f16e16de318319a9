/** What the kernel offers to the outside, plain or compiled. */
import { fillClasses } from './letters.ts';

export { isLow } from './ascii.ts';
export { countLines } from './evidence.ts';
export { readLines } from './lines.ts';
export { layOut, layoutFor } from './pack.ts';

/** Makes the kernel ready; once, before anything else. */
export function begin(): void {
  fillClasses();
}
