import { type Block, L } from './block.ts';
import type { CodeRow, Effect, Group } from './codes/shape.ts';
import { CODES } from './codes/table.ts';
import type { Machine } from './machine.ts';

/** The G and M codes of one block as rows of the code table, with the word each stands in. Reused from block to block. */
export class BlockCodes {
  readonly rows: CodeRow[] = [];
  readonly words: number[] = [];
  /** The block holds a code that is not known. */
  unknown = false;

  clear(): void {
    this.rows.length = 0;
    this.words.length = 0;
    this.unknown = false;
  }

  /** Index of the code with an effect; -1 without. */
  find(effect: Effect): number {
    for (let i = 0; i < this.rows.length; i += 1) if (this.rows[i].effect === effect) return i;
    return -1;
  }

  has(effect: Effect): boolean {
    return this.find(effect) >= 0;
  }

  /** Index of the last code of a modal group; -1 without. */
  ofGroup(group: Group): number {
    for (let i = this.rows.length - 1; i >= 0; i -= 1) if (this.rows[i].group === group) return i;
    return -1;
  }
}

/** Groups of which several codes may stand in one block. */
const FREE_GROUPS: ReadonlySet<Group> = new Set([
  'none',
  'user',
  'call',
  'coolant',
  'io',
  'non-modal',
  'overrides',
]);

/** Reads the codes of a block; unknown ones and two of one modal group are reported. */
export function collectCodes(machine: Machine, block: Block, codes: BlockCodes): void {
  codes.clear();
  for (let at = 0; at < block.count; at += 1) {
    const letter = block.letter[at];
    if (letter !== L.G && letter !== L.M) continue;
    const value = block.value[at];
    const index = letter === L.G ? machine.g : machine.m;
    const ten = Math.round(value * 10);
    const exact = ten >= 0 && Math.abs(ten - value * 10) < 0.001;
    const row = exact && ten < index.length ? index[ten] : -1;
    if (row < 0) {
      codes.unknown = true;
      unknown(machine, block, at);
      continue;
    }
    const code = CODES[row];
    const twin = FREE_GROUPS.has(code.group) ? -1 : codes.ofGroup(code.group);
    if (twin >= 0) clash(machine, block, at, codes.rows[twin], code);
    codes.rows.push(code);
    codes.words.push(at);
  }
}

function unknown(machine: Machine, block: Block, at: number): void {
  if (Number.isNaN(block.value[at])) return;
  const name = nameOf(block, at);
  machine.problemAt(block, at, 'code-unknown', `${name} is not a code of this kind of control`);
}

function clash(machine: Machine, block: Block, at: number, first: CodeRow, second: CodeRow): void {
  if (first.number === second.number) return;
  const cancel = first.effect === 'cycle-cancel' || second.effect === 'cycle-cancel';
  if (cancel && !machine.report) return;
  const a = `${first.letter}${first.number}`;
  const b = `${second.letter}${second.number}`;
  machine.problemAt(
    block,
    at,
    'codes-of-one-group',
    `${a} and ${b} cannot both act in one block (${first.means}; ${second.means})`,
  );
}

/** A code as people write it. */
export function nameOf(block: Block, at: number): string {
  return `${String.fromCharCode(block.letter[at])}${block.value[at]}`;
}
