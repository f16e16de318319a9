import type { MachineState } from '../state.ts';

/** Remembers how things stood at each jump back: a jump that finds all as last time will go on for ever. */
export class JumpBook {
  private readonly jumps = new Map<string, { marks: readonly number[]; state: MachineState }>();

  /** True when nothing changed since the jump of this name was made last. `marks` count whatever the state does not hold. */
  sameAsLast(name: string, marks: readonly number[], state: MachineState): boolean {
    const last = this.jumps.get(name);
    if (last?.marks.every((mark, at) => mark === marks[at]) && last.state.equals(state)) return true;
    if (last === undefined) this.jumps.set(name, { marks, state: state.clone() });
    else {
      last.marks = marks;
      last.state.copyFrom(state);
    }
    return false;
  }
}
