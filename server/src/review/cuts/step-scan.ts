import { StepCursor } from '../../rs274/index.ts';
import { Slot } from '../../rs274/slot.ts';
import { KIND, type StepTable } from '../../rs274/steps.ts';
import type { MoveFigures } from '../../stock/figures.ts';
import type { LatheFigures } from '../../stock/lathe-figures.ts';
import { type EdgeFacts, edgeFacts } from '../facts.ts';
import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';
import { loadsOf } from './add-loads.ts';
import type { Loads } from './milling-loads.ts';
import { Trust } from './trust.ts';

/** A watcher of one use of a tool: sees its steps in order, then gives what it found. */
export interface Watcher<T> {
  see(step: Seen): void;
  result(): T;
}

/** What one kind of watcher found, by program and use. */
export interface StepWatch<T> {
  of(program: Program, use: ToolUse): T | undefined;
}

type Start<T> = (use: ToolUse, program: Program) => Watcher<T> | undefined;

const starts: Start<unknown>[] = [];
const scans = new Slot<Program, { count: number; found: Map<ToolUse, unknown[]> }>();

/**
 * Declares a watcher. All watchers are fed in one walk over the program, the first time that one of them is
 * asked; what they found is kept with the program. `start` may leave uses out that it has nothing to say of.
 */
export function watchSteps<T>(start: Start<T>): StepWatch<T> {
  const index = starts.length;
  starts.push(start);
  return {
    of(program, use) {
      let scan = scans.get(program);
      if (!scan || scan.count <= index) {
        scan = { count: starts.length, found: walk(program) };
        scans.set(program, scan);
      }
      return scan.found.get(use)?.[index] as T | undefined;
    },
  };
}

/** One step as watchers see it; the same object each time, so copy what is kept. */
export class Seen {
  /** How far the stock can be trusted at this step. */
  trusted = true;
  mill: MoveFigures | undefined;
  lathe: LatheFigures | undefined;
  private edgeNow: EdgeFacts | undefined;
  /** The run that `edgeNow` belongs to: on a mill it is the same for all its steps. */
  private edgeTable: StepTable | null = null;
  private edgeRow = -1;
  private loadsNow: (Loads & { roughness_um?: number }) | undefined;

  constructor(
    readonly program: Program,
    readonly step: StepCursor,
  ) {}

  use!: ToolUse;

  /** Moves to the step that the cursor stands at. */
  enter(use: ToolUse): void {
    this.use = use;
    if (
      this.program.kind !== 'mill' ||
      this.edgeTable !== this.step.table ||
      this.edgeRow !== this.step.runRow
    ) {
      this.edgeNow = undefined;
      this.edgeTable = this.step.table;
      this.edgeRow = this.step.runRow;
    }
    this.loadsNow = undefined;
    const { cuts } = this.program;
    this.mill = cuts?.kind === 'mill' ? cuts.figures(this.step) : undefined;
    this.lathe = cuts?.kind === 'lathe' ? cuts.figures(this.step) : undefined;
  }

  /** True when the stock has figures of this step. */
  get held(): boolean {
    return this.mill !== undefined || this.lathe !== undefined;
  }
  /**
   * Thickest chip over the chip load by the arc alone: 1 where the arc holds the place ahead, else the larger sine of its ends (Martellotti
   * 1941). Corner radius and edge angle only thin it further. 1 where the arc is broken.
   */
  get arc_share(): number {
    const { mill } = this;
    if (!mill) return 1;
    const { entry_deg, exit_deg } = mill;
    if (!(entry_deg > 90 || exit_deg < 90)) return 1;
    return Math.sin((Math.PI / 180) * (entry_deg > 90 ? entry_deg : exit_deg));
  }
  get line(): number {
    return this.step.line;
  }
  get rapid(): boolean {
    return this.step.kind === KIND.rapid;
  }
  get removed_mm3(): number {
    return this.mill?.removed_mm3 ?? this.lathe?.removed_mm3 ?? 0;
  }
  /** True for a feed move that takes metal. */
  get cuts(): boolean {
    return !this.rapid && this.removed_mm3 > 0;
  }
  /** Way in the plane, mm (straight distance between the ends of a line, path of an arc). */
  get level_mm(): number {
    const { step } = this;
    if (step.kind === KIND.arc) return step.length_mm;
    return Math.hypot(step.x - step.x0, step.y - step.y0);
  }
  /** How far the move goes down, mm. */
  get down_mm(): number {
    return this.step.z0 - this.step.z;
  }
  get edge(): EdgeFacts {
    this.edgeNow ??= edgeFacts(this.step.runValues, this.use.tool, this.program.kind, this.step.x);
    return this.edgeNow;
  }
  get loads(): Loads & { roughness_um?: number } {
    this.loadsNow ??= loadsOf(this.program, this.step, this.use.tool);
    return this.loadsNow;
  }
}

const FOLLOWED = new Set<number>([KIND.rapid, KIND.feed, KIND.arc, KIND.thread]);
/** Steps that are looked at; later ones are not. */
const MOST_STEPS = 1_000_000;

function walk(program: Program): Map<ToolUse, unknown[]> {
  const found = new Map<ToolUse, unknown[]>();
  if (!program.cuts) return found;
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  const seen = new Seen(program, cursor);
  const trust = new Trust(program);
  let at = -1;
  let use: ToolUse | undefined;
  let watchers: (Watcher<unknown> | undefined)[] = [];
  const close = () => {
    if (use)
      found.set(
        use,
        watchers.map(watcher => watcher?.result()),
      );
  };
  for (let count = 0; count < MOST_STEPS && cursor.next(); count++) {
    const tool = cursor.run('tool');
    const number = tool >= 0 ? tool : -1;
    if (!use || use.number !== number) {
      const next = program.uses.findIndex((each, index) => index > at && each.number === number);
      if (next < 0) continue;
      close();
      at = next;
      use = program.uses[next];
      watchers = starts.map(start => start(program.uses[next], program));
    }
    const followed = FOLLOWED.has(cursor.kind);
    if (followed) seen.enter(use);
    seen.trusted = trust.after(cursor, use, followed && seen.held);
    if (!followed || cursor.file !== undefined) continue;
    for (const watcher of watchers) watcher?.see(seen);
  }
  close();
  return found;
}
