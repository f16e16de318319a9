import { type Block, L } from './block.ts';
import { BlockCodes, collectCodes, nameOf } from './block-codes.ts';
import { breaksPath, closePath, forgetMovedPoint } from './execute-compensation.ts';
import { executeFeedAndSpindle } from './execute-feed.ts';
import { executeModes } from './execute-modes.ts';
import { executeMotion } from './execute-motion.ts';
import { executeOffsets } from './execute-offsets.ts';
import {
  executeCoolant,
  executeSpindleStart,
  executeSpindleStop,
  executeToolChange,
} from './execute-tool.ts';
import { followFrame } from './lost-frame.ts';
import type { Machine } from './machine.ts';
import { checkReportRules } from './report-checks.ts';
import { S } from './state.ts';
import { KIND, STEP_FLAG } from './steps.ts';

/** Executes blocks on a machine in the dialect's order of execution. */
export class Executor {
  private readonly codes = new BlockCodes();

  constructor(readonly machine: Machine) {
    machine.runner = runnerOf;
  }

  /**
   * Executes one block: NISTIR 6556 section 3.8 table 8 for `ngc` (from memory); elsewhere M5, M9 and the stops act after
   * the move and M3, M8 before it (ISO 6983-1). A block that needs control flow sets `needs_flow` and does nothing else.
   */
  execute(block: Block): void {
    const { machine, codes } = this;
    const { v } = machine.state;
    if (block.percent) {
      if (v[S.begun] === 1) v[S.ended] = 2;
      return;
    }
    if (block.needs_flow) machine.needs_flow = true;
    if (v[S.ended] !== 0 || block.note) return;
    if (!Number.isNaN(v[S.skip_until_n])) {
      if (block.n === v[S.skip_until_n]) v[S.skip_until_n] = Number.NaN;
      return;
    }
    if (block.abort && !(block.deleted > 0 && machine.settings.skip_deleted)) {
      machine.step(KIND.end);
      v[S.ended] = 1;
      return;
    }
    if (block.count === 0) return;
    if (block.deleted > 0 && machine.settings.skip_deleted) return;
    v[S.begun] = 1;
    machine.flags = block.deleted > 0 ? STEP_FLAG.optional : 0;
    if (block.deleted > 0)
      machine.assume('block-delete', 'blocks with block delete (/) are taken, not left out');
    collectCodes(machine, block, codes);
    if (this.callsFlow(block)) {
      machine.needs_flow = true;
      return;
    }
    const report = machine.report;
    if (report) checkReportRules(machine, block, codes);
    if (machine.state.pending !== null && breaksPath(codes)) closePath(machine);
    executeModes(machine, block, codes);
    executeFeedAndSpindle(machine, block, codes);
    executeToolChange(machine, block, codes);
    const other_spindle = block.spindle > 0;
    if (!other_spindle) executeSpindleStart(machine, block, codes);
    if (report && !other_spindle) executeSpindleStop(machine, codes);
    executeCoolant(machine, codes, report ? 'all' : 'before');
    this.notFollowed(block);
    followFrame(machine, block, codes);
    const used = executeOffsets(machine, block, codes);
    forgetMovedPoint(machine, codes);
    executeMotion(machine, block, codes, used);
    if (!report) {
      executeSpindleStop(machine, codes);
      executeCoolant(machine, codes, 'after');
    }
    this.stop();
  }

  private callsFlow(block: Block): boolean {
    for (const row of this.codes.rows) {
      switch (row.effect) {
        case 'macro-call':
        case 'modal-macro-call':
        case 'modal-macro-off':
        case 'call':
        case 'local-call':
        case 'external-call':
        case 'save-state':
        case 'discard-state':
        case 'restore-state':
        case 'save-and-restore-state':
          return true;
        case 'return':
          if (block.has(L.P)) return true;
          break;
        default:
          break;
      }
    }
    return false;
  }

  private notFollowed(block: Block): void {
    const { machine, codes } = this;
    for (let i = 0; i < codes.rows.length; i += 1) {
      const row = codes.rows[i];
      if (row.effect !== 'not-followed') continue;
      const left = row.leaves_unchecked === undefined ? '' : `; not checked: ${row.leaves_unchecked}`;
      const name = nameOf(block, codes.words[i]);
      machine.problemAt(
        block,
        codes.words[i],
        'not-followed',
        `${name} (${row.means}) is not followed${left}`,
      );
    }
  }

  private stop(): void {
    const { machine, codes } = this;
    const { v } = machine.state;
    for (const row of codes.rows) {
      if (row.effect === 'stop' || row.effect === 'optional-stop' || row.effect === 'pallet')
        machine.step(KIND.stop);
      else if (row.effect === 'end' || row.effect === 'return') {
        machine.step(KIND.end);
        v[S.ended] = 1;
        return;
      }
    }
  }
}

const runnerOf = (machine: Machine) => new Executor(machine);
