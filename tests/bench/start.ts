import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type Figure, figure, ms, ratios } from './figures.ts';
import { makeProgram } from './programs.ts';
import { ServerProcess } from './server-process.ts';

interface Took {
  ready: number[];
  hints: number[];
}

/**
 * From nothing to the answer of `initialize`, and to the first hints of 1,000 lines: with what an earlier start compiled,
 * as the extension starts the server, and as on the first start of all.
 */
export async function start(root: string): Promise<Figure[]> {
  const text = new TextDecoder('latin1').decode(makeProgram('finishing', 1000));
  const compiled = mkdtempSync(path.join(tmpdir(), 'tapeproof-bench-'));
  const nothing: number[] = [];
  const usual: Took = { ready: [], hints: [] };
  const first: Took = { ready: [], hints: [] };
  for (let round = -1; round < 11; round++) {
    const t0 = performance.now();
    spawnSync(process.execPath, ['-e', '0']);
    const empty = performance.now() - t0;
    const taken = [await timedStart(root, text, compiled), await timedStart(root, text)];
    if (round < 0) continue;
    nothing.push(empty);
    for (const [at, took] of [usual, first].entries()) {
      took.ready.push(taken[at].ready);
      took.hints.push(taken[at].hints);
    }
  }
  rmSync(compiled, { recursive: true });
  return [
    ...figuresOf('start', usual, nothing, [1.6, 1.3]),
    ...figuresOf('first start of all', first, nothing),
  ];
}

async function timedStart(root: string, text: string, compiled?: string) {
  const began = performance.now();
  const server = await ServerProcess.start(root, compiled);
  const ready = performance.now() - began;
  await server.open(text);
  await server.hints(0, 60);
  const hints = performance.now() - began;
  await server.stop();
  return { ready, hints };
}

function figuresOf(
  name: string,
  took: Took,
  nothing: number[],
  targets: (number | undefined)[] = [],
): Figure[] {
  return [
    figure(
      {
        name: `${name} until \`initialize\` is answered`,
        against: '`node -e 0`',
        target: targets[0],
        plain: ms(took.ready),
      },
      ratios(took.ready, nothing),
    ),
    figure(
      {
        name: `${name} until first hints of 1,000 lines`,
        against: '`initialize`',
        target: targets[1],
        plain: ms(took.hints),
      },
      ratios(took.hints, took.ready),
    ),
  ];
}

/** `check` of a million lines, with what an earlier run compiled, against the usual script, both as whole processes. */
export function processes(root: string, scripts: string): Figure[] {
  const file = path.join(tmpdir(), `tapeproof-bench-${process.pid}.nc`);
  writeFileSync(file, makeProgram('finishing', 1_000_000));
  const took = { check: [] as number[], script: [] as number[] };
  const compiled = mkdtempSync(path.join(tmpdir(), 'tapeproof-bench-'));
  const timed = (args: string[]) => {
    const began = performance.now();
    const ended = spawnSync(process.execPath, args, {
      stdio: ['ignore', 'pipe', 'pipe'],
      encoding: 'utf8',
      env: { ...process.env, TAPEPROOF_CACHE: compiled },
    });
    if (ended.status === null || ended.status > 1) throw new Error(`${args.join(' ')}: ${ended.stderr}`);
    return performance.now() - began;
  };
  for (let round = -1; round < 7; round++) {
    const check = timed([path.join(root, 'server/bin/tapeproof.cjs'), 'check', file]);
    const script = timed([scripts, 'script', file]);
    if (round < 0) continue;
    took.check.push(check);
    took.script.push(script);
  }
  rmSync(file);
  rmSync(compiled, { recursive: true });
  return [
    figure(
      {
        name: 'split and match as a process, 1,000,000 lines',
        against: '`check` as a process',
        target: 4,
        over: true,
        plain: `${ms(took.script)} to ${ms(took.check)}`,
      },
      ratios(took.script, took.check),
    ),
  ];
}
