import { findingsOf, type Job, tryFault, type Verdict } from './fault.ts';
import { REWRITES } from './rewrites.ts';
import { FAULTS } from './table.ts';

/** Tries every fault. */
export function tryAll(all: readonly Job[]): Verdict[] {
  return FAULTS.map(fault => tryFault(fault, all));
}

/** Errors and warnings that good programs and harmless rewrites of them get, each as a line to read. */
export function falseAlarms(all: readonly Job[], cut = false): string[] {
  const alarms: string[] = [];
  for (const job of all) {
    const texts = [
      { name: 'as it is', program: job.program },
      ...REWRITES.filter(rewrite => !rewrite.not?.(job)).map(rewrite => ({
        name: rewrite.name,
        program: rewrite.program(job.program),
      })),
    ];
    for (const { name, program } of texts) {
      for (const finding of findingsOf({ ...job, program }, cut)) {
        if (finding.severity !== 'error' && finding.severity !== 'warning') continue;
        alarms.push(`${job.name}, ${name}: ${finding.severity} ${finding.code} at line ${finding.line + 1}`);
      }
    }
  }
  return alarms;
}
