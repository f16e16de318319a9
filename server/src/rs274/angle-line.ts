import { type Block, L } from './block.ts';
import { isChanged, PLANE } from './coordinate-change.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';
import { AXIS, type Target } from './targets.ts';

/** Sines and cosines less than this are none. */
const LEVEL = 1e-9;

/**
 * A line given by its angle: `,A`, and on lathes A in a G1 block without the comma. The angle counts from the plane's first axis
 * (Z on lathes, X in G17) towards the second; with one axis word the other end is worked out into `target`. Without an axis
 * word the end depends on the next block and is not followed. Returns the axes (bits) whose end is not known. Common practice, no
 * source.
 */
export function turnByAngle(machine: Machine, block: Block, target: Target): number {
  const bare = machine.lathe_words ? block.index(L.A) : -1;
  const at = block.comma_a >= 0 ? block.comma_a : bare;
  if (at < 0 || machine.report) return 0;
  const { v, pending } = machine.state;
  const [first, second] = PLANE[v[S.plane] - 17];
  const has_first = (target.named & (1 << first)) !== 0;
  const has_second = (target.named & (1 << second)) !== 0;
  if (has_first && has_second) return 0;
  if (block.comma_a < 0) {
    target.named &= ~AXIS.a;
    target.a = v[S.a];
  }
  const angle = (block.value[at] * Math.PI) / 180;
  const [along, up] = [Math.cos(angle), Math.sin(angle)];
  const from = pending === null ? [v[S.x], v[S.y], v[S.z]] : [pending.x, pending.y, pending.z];
  const to = [target.x, target.y, target.z];
  const impossible = has_first ? Math.abs(along) < LEVEL : Math.abs(up) < LEVEL;
  if (!(has_first || has_second) || impossible || isChanged(v)) {
    const text = has_first || has_second ? 'this angle gives no end of the line' : NEEDS_NEXT;
    machine.problemAt(block, at, 'not-followed', isChanged(v) ? CHANGED : text);
    target.named |= (1 << first) | (1 << second);
    return (1 << first) | (1 << second);
  }
  if (has_first) to[second] = from[second] + ((to[first] - from[first]) * up) / along;
  else to[first] = from[first] + ((to[second] - from[second]) * along) / up;
  [target.x, target.y, target.z] = to;
  target.named |= (1 << first) | (1 << second);
  return 0;
}

const NEEDS_NEXT = 'a line whose end is where the next one crosses it is not followed';
const CHANGED = 'a line by its angle is not followed in turned, scaled or mirrored coordinates';
