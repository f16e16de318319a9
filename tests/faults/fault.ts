import { readdirSync, readFileSync } from 'node:fs';
import { openJob } from '../../server/src/job/open-job.ts';
import type { Finding } from '../../server/src/review/finding.ts';

/** One thing done wrong in a good program, and what must be said about it. */
export interface Fault {
  family: 'language' | 'state' | 'numbers' | 'geometry' | 'cutting' | 'shop';
  name: string;
  /** Folder under fixtures. */
  job: string;
  /** Text that is changed, and what it becomes; the nth place (1 when left out). */
  from: string;
  to: string;
  nth?: number;
  /** Changed in the setup sheet instead of the program. */
  inSheet?: boolean;
  /** Any of these codes will do. */
  codes: readonly string[];
  /** Text of the changed program on the line where the finding belongs; the changed line when left out. */
  near?: string;
  /** Which of the lines with that text, from 1. */
  nearNth?: number;
  /** The stock has to be worked out. */
  cut?: boolean;
}

export interface Job {
  name: string;
  program: string;
  sheet: string;
}

const root = new URL('../../fixtures/', import.meta.url);
const secondRoot = new URL('./jobs/', import.meta.url);

/** The good programs with their setup sheets. */
export function jobs(): Job[] {
  return jobsIn(root);
}

/** Good programs that were written before the rules were looked at; their stock is always worked out. */
export function secondJobs(): Job[] {
  return jobsIn(secondRoot);
}

function jobsIn(root: URL): Job[] {
  return readdirSync(root).map(name => {
    const folder = new URL(`${name}/`, root);
    const file = readdirSync(folder).find(each => /\.(nc|ngc)$/.test(each));
    if (!file) throw new Error(`no program in ${folder}`);
    return {
      name: file,
      program: readFileSync(new URL(file, folder), 'utf8'),
      sheet: readFileSync(new URL(`${name}.setup.json`, folder), 'utf8'),
    };
  });
}

/** Findings of a program with its sheet. */
export function findingsOf(job: Job, cut = false): readonly Finding[] {
  return openJob({
    bytes: new TextEncoder().encode(job.program),
    name: job.name,
    files: { sheet: { path: 'job.setup.json', text: job.sheet } },
    cut,
  }).review.findings;
}

export interface Verdict {
  fault: Fault;
  caught: boolean;
  /** What was said instead, for the person who reads the score. */
  said: string;
}

/** How near to the place a finding must stand, lines. */
const NEAR_LINES = 2;

/** Puts the fault into its job and looks whether it is found at its place, and was not there before. */
export function tryFault(fault: Fault, all: readonly Job[]): Verdict {
  const job = all.find(each => each.name.startsWith(`${fault.job}.`));
  if (!job) throw new Error(`no job ${fault.job}`);
  const before = findingsOf(job, fault.cut);
  const source = fault.inSheet ? job.sheet : job.program;
  const at = nthIndex(source, fault.from, fault.nth ?? 1);
  if (at < 0) throw new Error(`${fault.name}: "${fault.from}" is not in ${fault.job}`);
  const changed = source.slice(0, at) + fault.to + source.slice(at + fault.from.length);
  const faulty = fault.inSheet ? { ...job, sheet: changed } : { ...job, program: changed };
  const line = placeOf(fault, faulty.program, source.slice(0, at).split('\n').length - 1);
  const after = findingsOf(faulty, fault.cut);
  const caught = after.some(
    finding =>
      fault.codes.includes(finding.code) &&
      (finding.severity === 'error' || finding.severity === 'warning') &&
      linesOf(finding).some(each => Math.abs(each - line) <= NEAR_LINES) &&
      !before.some(old => old.code === finding.code && old.severity === finding.severity),
  );
  const added = after.filter(
    f => !before.some(b => b.code === f.code && b.line === f.line && b.severity === f.severity),
  );
  return { fault, caught, said: added.map(f => `${f.severity} ${f.code}:${f.line + 1}`).join(', ') };
}

function linesOf(finding: Finding): number[] {
  return [finding.line, ...(finding.related ?? []).map(place => place.line)];
}

function placeOf(fault: Fault, program: string, changedLine: number): number {
  const { near } = fault;
  if (near === undefined) {
    if (fault.inSheet) throw new Error(`${fault.name}: a fault of the sheet needs its place in the program`);
    return changedLine;
  }
  const at = nthIndex(program, near, fault.nearNth ?? 1);
  if (at < 0) throw new Error(`${fault.name}: "${near}" is not in the changed program`);
  return program.slice(0, at).split('\n').length - 1;
}

function nthIndex(text: string, part: string, nth: number): number {
  let at = -1;
  for (let i = 0; i < nth; i++) {
    at = text.indexOf(part, at + 1);
    if (at < 0) return -1;
  }
  return at;
}
