import { Part } from './part.ts';
import { sameRun } from './same-run.ts';

/** Parts whose lines are counted from a first line. */
export interface PlacedParts {
  first_line: number;
  parts: readonly Part[];
  /** Nobody else holds them: they may be changed. */
  own?: boolean;
}

/** Parts in order of the program: neighbours with equal runs are one. */
export function joinInOrder(pieces: Iterable<PlacedParts>): Part[] {
  const joined = new Joined();
  for (const { parts, first_line, own } of pieces) {
    for (const part of parts) {
      const last = joined.parts.length - 1;
      if (last >= 0 && sameRun(joined.parts[last].run, part.run)) joined.addTo(last, part, first_line);
      else joined.push(part, first_line, own);
    }
  }
  return joined.parts;
}

/**
 * Parts of which none has the same run within one use of a tool, in order of their beginning; the last part of a use has
 * the run that it ends with. For programs that change the feed back and forth thousands of times.
 */
export function fold(pieces: Iterable<PlacedParts>): Part[] {
  const folding = new Folding();
  for (const { parts, first_line, own } of pieces)
    for (const part of parts) folding.add(part, first_line, own);
  return folding.done();
}

/** Parts put together. Those that stand where they belong are lent, and copied before anything is added to them. */
class Joined {
  readonly parts: Part[] = [];
  private readonly lent: boolean[] = [];

  push(part: Part, by: number, own = false): void {
    const lent = !own && by === 0;
    this.lent.push(lent);
    this.parts.push(lent ? part : (own ? part : part.copy()).moved(by));
  }

  addTo(index: number, part: Part, by: number): void {
    const { parts, lent } = this;
    if (lent[index]) parts[index] = parts[index].copy();
    lent[index] = false;
    parts[index].take(part, by);
  }
}

/** In a use of a tool with more parts than this, parts are found by their hash. */
const FEW = 16;

class Folding {
  private readonly joined = new Joined();
  /** Parts of this use of a tool by hash, once they are many. */
  private readonly by_hash = new Map<number, number[]>();
  /** Where the parts of this use begin. */
  private begin = 0;
  private tool = -1;
  private last = -1;
  private last_line = 0;

  add(part: Part, by: number, own: boolean | undefined): void {
    const last_line = part.last_line + by;
    if (this.last >= 0 && this.tool !== part.tool) this.close();
    this.last = this.alike(part);
    if (this.last >= 0) this.joined.addTo(this.last, part, by);
    else {
      this.last = this.joined.parts.length;
      this.joined.push(part, by, own);
      this.keep(part);
    }
    this.tool = part.tool;
    this.last_line = last_line;
  }

  done(): Part[] {
    this.close();
    return this.joined.parts;
  }

  /** Where this use has a part of the same run. What is found alike is made kin, and told at a glance from then on. */
  private alike(part: Part): number {
    const { parts } = this.joined;
    const { begin, by_hash } = this;
    const { run, kin } = part;
    let found = -1;
    if (parts.length - begin > FEW)
      found = by_hash.get(part.hash)?.find(index => sameRun(parts[index].run, run)) ?? -1;
    else {
      for (let index = begin; index < parts.length; index++) {
        const other = parts[index];
        if (other.run === run || (kin !== undefined && other.kin === kin)) return index;
      }
      const { hash } = part;
      for (let index = begin; found < 0 && index < parts.length; index++)
        if (parts[index].hash === hash && sameRun(parts[index].run, run)) found = index;
    }
    if (found >= 0) part.kin = parts[found].kin ??= kin ?? {};
    return found;
  }

  private keep({ hash }: Part): void {
    const { parts } = this.joined;
    const { begin, by_hash } = this;
    const count = parts.length - begin;
    if (count <= FEW) return;
    if (count > FEW + 1) add(by_hash, hash, parts.length - 1);
    else for (let index = begin; index < parts.length; index++) add(by_hash, parts[index].hash, index);
  }

  /** Ends the use of a tool: its last part is to tell how it ends. */
  private close(): void {
    const { parts } = this.joined;
    if (this.last >= 0 && this.last !== parts.length - 1)
      this.joined.push(new Part(parts[this.last].run, this.last_line), 0, true);
    if (this.by_hash.size > 0) this.by_hash.clear();
    this.begin = parts.length;
    this.last = -1;
  }
}

function add(by_hash: Map<number, number[]>, hash: number, index: number): void {
  const others = by_hash.get(hash);
  if (others) others.push(index);
  else by_hash.set(hash, [index]);
}
