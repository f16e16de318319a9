import type { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN, STEP_FLAG } from '../../rs274/steps.ts';
import { bareComment } from '../comment-text.ts';
import type { Program } from '../program.ts';
import type { ToolUse } from '../tool-use.ts';

/**
 * Whether the stock still is what the calculation holds. From the first thing on that it cannot follow (a cut of a tool
 * that is not known, a path under compensation that is not modelled, a turned rotary axis, a part that a person
 * turns over at a stop, a bar that was parted off) metal may be held that is gone.
 */
export class Trust {
  private lost = false;
  /** Angles now, and those at which each work offset was first cut. */
  private readonly rotary = [Number.NaN, Number.NaN, Number.NaN];
  private readonly cutAt = new Map<number, readonly number[]>();
  private parting = false;

  constructor(private readonly program: Program) {}

  /** Looks at the next step, `held` when the stock has figures of it; true while the stock can be trusted. */
  after(step: StepCursor, use: Pick<ToolUse, 'tool'>, held: boolean): boolean {
    if (this.lost) return false;
    const { kind } = step;
    const tool = use.tool?.kind?.value;
    if (this.parting && tool !== 'part-off') this.lost = true;
    if (kind === KIND.stop && this.turnsPart(step.line)) this.lost = true;
    if (kind === KIND.rapid || kind === KIND.feed || kind === KIND.arc) {
      if (this.turned(step, kind !== KIND.rapid)) this.lost = true;
      if (kind !== KIND.rapid) {
        if (this.compensationUnknown(step)) this.lost = true;
        if (!held && this.unfollowed(step, tool)) this.lost = true;
        if (tool === 'part-off') this.parting = true;
      }
    }
    return !this.lost;
  }

  private unfollowed(step: StepCursor, tool: string | undefined): boolean {
    if (this.program.kind === 'lathe') {
      if (tool === 'tap' || tool === 'thread-turn' || tool === 'probe') return false;
      if (tool === 'drill' || tool === 'reamer' || tool === 'spot-drill' || tool === 'center-drill')
        return step.x !== 0 || !this.program.tool(step.runValues[RUN.tool])?.diameter_mm;
      return true;
    }
    if (tool === 'tap' || tool === 'thread-mill' || tool === 'probe') return false;
    return true;
  }

  private compensationUnknown(step: StepCursor): boolean {
    const { machine, kind } = this.program;
    const compensation = step.run('compensation');
    if (kind === 'lathe' || (compensation !== 41 && compensation !== 42)) return false;
    const followed = (step.flags & STEP_FLAG.compensated) !== 0;
    return !followed && machine?.compensation?.value !== 'wear-only';
  }

  /** A work offset whose stock is cut at two angles; each offset has its own stock, so the others stay known. */
  private turned(step: StepCursor, cuts: boolean): boolean {
    if (step.table?.rotary) {
      for (let axis = 0; axis < 3; axis++) {
        const angle = step.rotary(axis);
        if (!Number.isNaN(angle)) this.rotary[axis] = angle;
      }
    }
    if (!cuts) return false;
    const frame = step.run('frame');
    const first = this.cutAt.get(frame);
    if (!first) {
      this.cutAt.set(frame, [...this.rotary]);
      return false;
    }
    return this.rotary.some(
      (angle, axis) => angle !== first[axis] && !(Number.isNaN(angle) && Number.isNaN(first[axis])),
    );
  }

  private turnsPart(line: number): boolean {
    if (!this.program.words(line).some(word => word.letter === 'M' && word.value === 0)) return false;
    for (let near = Math.max(0, line - 2); near <= line + 2 && near < this.program.lineCount; near++)
      if (TURNS.test(bareComment(this.program.reading.text.lineText(near)))) return true;
    return false;
  }
}

const TURNS = /\b(turn|flip|rotate|re-?clamp|un-?clamp|clamps?|jaws?|move|remove|reverse|swap|re-?load)\b/i;
