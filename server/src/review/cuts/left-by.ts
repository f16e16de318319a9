import { StepCursor } from '../../rs274/index.ts';
import { KIND, RUN } from '../../rs274/steps.ts';
import type { Turn as CutTurn } from '../../stock/end-state.ts';
import { LatheRun } from '../../stock/lathe-run.ts';
import { type Lay, leftOf } from '../../stock/left.ts';
import { createMillStock } from '../../stock/mill.ts';
import type { Program } from '../program.ts';
import type { Asked, Left, LeftNotes, NotLeft } from './earlier.ts';
import { type LathePlan, lathePlan } from './lathe-plan.ts';
import { type MillPlan, millPlan } from './plan.ts';
import { Trust } from './trust.ts';

/** What is cut to know what a program takes out. */
export type StockPlan = MillPlan | LathePlan;

const TURNS: Record<string, CutTurn> = {
  none: 'none',
  'flip-x': 'flip-x',
  'flip-y': 'flip-y',
  'turn-z-90': 'z-90',
  'turn-z-180': 'z-180',
  'turn-z-270': 'z-270',
};

/** How the sheet says that the part of a program lies now, or why that is not followed. */
export function layOf(asked: Asked): Lay | NotLeft {
  const { stock, kind, zero_mm } = asked;
  const turn = stock.turn?.value ?? 'none';
  if (kind === 'lathe') {
    if (turn !== 'none' && turn !== 'other-end')
      return { why: `"turn": "${turn}" is for a mill: on a lathe say "other-end"`, at: 'turn' };
    const face_z_mm = stock.face_mm?.value;
    if (turn === 'other-end' && face_z_mm === undefined)
      return {
        why: 'the sheet does not say at which Z the end face of the turned part is ("face")',
        at: 'turn',
      };
    return { kind, turned_round: turn === 'other-end', face_z_mm };
  }
  if (stock.face_mm)
    return {
      why: '"face" places a part on a lathe: on a mill "zero" of the work offset does',
      at: 'face_mm',
    };
  const cut = TURNS[turn];
  if (!cut)
    return { why: `"turn": "${turn}" is for a lathe: on a mill say "flip-x" or "flip-y"`, at: 'turn' };
  if (cut !== 'none' && !zero_mm) return { why: 'the sheet does not say where zero sits on the turned part' };
  return { kind, turn: cut, zero_mm };
}

/** Why the stock of one kind of machine does not go on on the other. */
export function otherKind({ stock, kind }: Asked, before: Program): NotLeft | undefined {
  if (before.kind === kind) return undefined;
  const is = before.kind === undefined ? 'neither for a mill nor for a lathe' : `for a ${before.kind}`;
  return {
    why: `the stock is what ${stock.from.value} leaves, and that program is ${is}: a ${kind} program cannot start from it`,
    at: 'from',
  };
}

/** The plan of what a program cuts, on a mill or a lathe. */
export function planOf(program: Program, most?: number): StockPlan | { why: string } {
  return program.kind === 'lathe' ? lathePlan(program, most) : millPlan(program, most);
}

/** What the program before leaves unsure or out, to be said where its stock goes on. */
export function notesOf(name: string, before: Program, plan: StockPlan): LeftNotes {
  const assumed = plan.kind === 'lathe' ? plan.assumed : plan.frames[0].assumed;
  const unsure = assumed
    ? `what ${name} leaves rests on a stock that its sheet does not state`
    : followed(before, plan)
      ? undefined
      : `not every cut of ${name} can be followed: what it leaves is not sure`;
  return {
    ...(unsure === undefined ? {} : { unsure }),
    left_out: plan.left_out.map(what => `${name}: ${what}`),
  };
}

/** True when the stock can be trusted to the end of the program. */
function followed(program: Program, { rows }: StockPlan): boolean {
  const trust = new Trust(program);
  const cursor = new StepCursor(program.reading, 0, Number.POSITIVE_INFINITY);
  let sure = true;
  while (sure && cursor.next()) {
    const { kind } = cursor;
    const moves = kind === KIND.rapid || kind === KIND.feed || kind === KIND.arc || kind === KIND.thread;
    const held = moves && ((cursor.table && rows.get(cursor.table)?.[cursor.index]) ?? -1) >= 0;
    sure = trust.after(cursor, { tool: program.tool(cursor.runValues[RUN.tool]) }, held);
  }
  return sure;
}

/** The program before cannot be cut. */
export function notCut(name: string, { why }: { why: string }): NotLeft {
  return { why: `the stock is what ${name} leaves, and that is not known: ${why}`, at: 'from' };
}

/** What another program leaves, worked out at once. A reason where it cannot be told. */
export function leftBy(before: Program, asked: Asked): Left {
  const other = otherKind(asked, before);
  if (other) return other;
  const lay = layOf(asked);
  if ('why' in lay) return lay;
  const plan = planOf(before);
  const name = asked.stock.from.value;
  if ('why' in plan) return notCut(name, plan);
  const notes = notesOf(name, before, plan);
  const run =
    plan.kind === 'lathe'
      ? new LatheRun(plan.bar, plan.tools)
      : createMillStock(plan.frames[0].block, plan.tools);
  run.append(plan.kind === 'lathe' ? plan.moves : plan.frames[0].moves);
  run.finish();
  const left = leftOf(run, lay);
  return 'why' in left ? notCut(name, left) : { ...left, ...notes };
}
