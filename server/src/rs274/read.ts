import { type FlowBounds, USUAL_BOUNDS } from './flow/bounds.ts';
import type { ResolveFile } from './flow/library.ts';
import { runWithFlow } from './flow/run-with-flow.ts';
import type { MachineSettings, ToolNose } from './machine.ts';
import { Reading } from './reading.ts';
import { type Settled, settle } from './settle.ts';
import type { Hints } from './settled-item.ts';
import { type MachineState, startState } from './state.ts';
import { StretchRunner, type StretchWitness } from './stretch.ts';
import type { ProgramText } from './text.ts';

/** What readers of a program can ask for. */
export interface ReadOptions extends Hints {
  /** Leave out blocks with block delete; usually they are taken. */
  skip_deleted?: boolean;
  compensation?: 'part-edge' | 'wear-only';
  /** Diameter of a tool by radius-offset number, else by tool number, mm; NaN when not known. */
  toolDiameter_mm?: (radius_offset: number, tool: number) => number;
  /** Nose of a lathe tool by offset number, else by tool number; NaN where not known. */
  toolNose?: (radius_offset: number, tool: number) => ToolNose;
  /** Settled before (on open or save): nothing flips while typing. */
  settled?: Settled;
  /** Finds the text of a called program in the same folder by name, without ending. */
  resolveFile?: ResolveFile;
  /** Bounds of a run with control flow; `late` is asked from time to time. */
  bounds?: Partial<FlowBounds>;
  /** Sees the stretches, each right after it was run. */
  witness?: StretchWitness;
  /** Only for tests: every block goes the long way. */
  slow_only?: boolean;
}

/** Reads and executes a program. Never throws. */
export function readProgram(text: ProgramText, options: ReadOptions = {}): Reading {
  const settled = options.settled ?? settle(text, options);
  const settings = machineSettings(settled, options);
  const runner = new StretchRunner(settings, options.slow_only);
  const flow = (start: MachineState, until_line?: number) =>
    runWithFlow(text, settings, start, {
      resolveFile: options.resolveFile,
      bounds: { ...USUAL_BOUNDS, ...options.bounds },
      first_line: settled.leader_lines,
      ...(until_line === undefined ? {} : { until_line }),
    });
  const reading = new Reading(text, settled, runner, startOf(settled), flow, options.witness);
  reading.refresh();
  return reading;
}

/** Settings of the machine for a settled reading. */
export function machineSettings(
  settled: Settled,
  options: ReadOptions,
): MachineSettings & { semicolon_ends_block: boolean } {
  return {
    dialect: settled.dialect.value,
    kind: settled.kind.value,
    least_increment_mm: settled.least_increment_mm.value,
    least_increment_inch: settled.least_increment_inch,
    dwell_ms: settled.dwell.value === 'ms',
    skip_deleted: options.skip_deleted ?? false,
    compensation: options.compensation,
    toolDiameter_mm: options.toolDiameter_mm,
    toolNose: options.toolNose,
    semicolon_ends_block: settled.semicolon_ends_block.value,
  };
}

/** The state that a program starts in: lathes G18 and feed per revolution in code system A, else G17 and feed per minute. */
export function startOf(settled: Settled): MachineState {
  const lathe = settled.kind.value === 'lathe';
  return startState({
    inch: settled.units.value === 'inch',
    diameter: settled.diameter.value,
    plane: lathe ? 18 : 17,
    feed_mode: settled.dialect.value === 'lathe-a' ? 95 : 94,
  });
}
