import type { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import type { ToolKnown } from '../../setup/index.ts';
import type { LatheStock } from '../../stock/lathe.ts';

/** Deepest first pass that still tells a tool in the bore, mm. */
const FIRST_PASS_MM = 1.5;
const EITHER = new Set(['groove', 'thread-turn']);

/**
 * Whether a grooving or threading tool works in the bore: a sheet does not say, the way in does. Settled at the first
 * move of each use that goes behind the face: in the bore when it starts no further out than the bore's wall.
 */
export class ToolSides {
  private tool = Number.NaN;
  private settled: boolean | undefined;

  constructor(
    private readonly stock: LatheStock,
    private readonly face_z_mm: number,
  ) {}

  /** True when the tool of this step cuts outwards in the bore. */
  inside(step: StepCursor, tool: ToolKnown | undefined): boolean {
    const number = step.runValues[RUN.tool];
    if (number !== this.tool) {
      this.tool = number;
      this.settled = undefined;
    }
    const kind = tool?.kind?.value;
    if (!kind || !EITHER.has(kind)) return false;
    if (this.settled !== undefined) return this.settled;
    if (!(step.z < this.face_z_mm) || step.kind === KIND.home) return false;
    const { inner, outer } = this.stock.radiiAt(step.z);
    if (!(outer > inner)) return false;
    this.settled = inner > 0 && step.x0 <= inner + FIRST_PASS_MM && step.x0 < outer;
    return this.settled;
  }
}
