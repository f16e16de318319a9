import { spawnSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type Figure, figure, ms, ratios } from './figures.ts';
import { makeProgram } from './programs.ts';
import { ServerProcess } from './server-process.ts';

/** From nothing to the answer of `initialize`, and to the first hints of 1,000 lines. */
export async function start(root: string): Promise<Figure[]> {
  const text = new TextDecoder('latin1').decode(makeProgram('finishing', 1000));
  const took = { nothing: [] as number[], ready: [] as number[], hints: [] as number[] };
  for (let round = -1; round < 11; round++) {
    const t0 = performance.now();
    spawnSync(process.execPath, ['-e', '0']);
    const t1 = performance.now();
    const server = await ServerProcess.start(root);
    const t2 = performance.now();
    await server.open(text);
    await server.hints(0, 60);
    const t3 = performance.now();
    await server.stop();
    if (round < 0) continue;
    took.nothing.push(t1 - t0);
    took.ready.push(t2 - t1);
    took.hints.push(t3 - t1);
  }
  return [
    figure(
      {
        name: 'start until `initialize` is answered',
        against: '`node -e 0`',
        target: 1.6,
        plain: ms(took.ready),
      },
      ratios(took.ready, took.nothing),
    ),
    figure(
      {
        name: 'start until first hints of 1,000 lines',
        against: '`initialize`',
        target: 1.3,
        plain: ms(took.hints),
      },
      ratios(took.hints, took.ready),
    ),
  ];
}

/** `check` of a million lines against the usual script, both as whole processes. */
export function processes(root: string, scripts: string): Figure[] {
  const file = path.join(tmpdir(), `tapeproof-bench-${process.pid}.nc`);
  writeFileSync(file, makeProgram('finishing', 1_000_000));
  const took = { check: [] as number[], script: [] as number[] };
  const timed = (args: string[]) => {
    const began = performance.now();
    const ended = spawnSync(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'], encoding: 'utf8' });
    if (ended.status === null || ended.status > 1) throw new Error(`${args.join(' ')}: ${ended.stderr}`);
    return performance.now() - began;
  };
  for (let round = -1; round < 7; round++) {
    const check = timed([path.join(root, 'server/bin/tapeproof.js'), 'check', file]);
    const script = timed([scripts, 'script', file]);
    if (round < 0) continue;
    took.check.push(check);
    took.script.push(script);
  }
  rmSync(file);
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
