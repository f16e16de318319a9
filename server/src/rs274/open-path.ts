import type { Element, Flat, Segment } from './compensation/element.ts';
import type { CompensationState } from './compensation/offset.ts';
import type { Plane } from './geometry/plane.ts';
import type { Pending } from './state.ts';

/** What a move of a compensated path takes with it until it is sent. Lines count from the start of the stretch. */
export interface PathTag {
  readonly line: number;
  /** Units of the block's line, for problems. */
  readonly length: number;
  readonly kind: number;
  readonly flags: number;
  readonly run: Float64Array;
}

/** The open end of a compensated path, with the programmed point; `path` null after it was closed. */
export class OpenPath implements Pending {
  private known_key: string | undefined;

  constructor(
    readonly plane: Plane,
    readonly path: CompensationState<PathTag> | null,
    readonly x: number,
    readonly y: number,
    readonly z: number,
    /** From the nose centre to the tip of a lathe tool; null for a cutter. */
    readonly shift: Flat | null = null,
  ) {}

  get key(): string {
    this.known_key ??= JSON.stringify([this.plane, this.path, this.x, this.y, this.z, this.shift], plain);
    return this.known_key;
  }

  movedUp(lines: number): OpenPath {
    const { path } = this;
    if (path === null || lines === 0) return this;
    const tag = (old: PathTag): PathTag => ({ ...old, line: old.line - lines });
    const element = (old: Element<PathTag>): Element<PathTag> => ({ ...old, tag: tag(old.tag) });
    const segment = (old: Segment<PathTag>): Segment<PathTag> => ({ ...old, tag: tag(old.tag) });
    const moved: CompensationState<PathTag> = {
      ...path,
      ...(path.entry && { entry: { segment: segment(path.entry.segment), offset: path.entry.offset } }),
      ...(path.pending && { pending: element(path.pending) }),
      plunges: path.plunges.map(plunge => ({ ...plunge, tag: tag(plunge.tag) })),
    };
    return new OpenPath(this.plane, moved, this.x, this.y, this.z, this.shift);
  }
}

function plain(_key: string, value: unknown): unknown {
  if (value instanceof Float64Array) return Array.from(value, String);
  return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
}
