import { type Figure, figure, ms, ratios } from './figures.ts';
import { makeProgram } from './programs.ts';
import { ServerProcess } from './server-process.ts';

const LINES = 1_000_000;
const MIDDLE = LINES / 2;
const SCREEN = 60;
const KEYS = 300;
const QUIET_MS = 4;

interface Taken {
  empty: number[];
  hints: number[];
  findings: number[];
}

/** A million lines with a hundred findings, as a person would have them on the list. */
function program(): string {
  const lines = new TextDecoder('latin1').decode(makeProgram('finishing', LINES)).split('\n');
  for (let at = 5_000; at < LINES; at += 10_000) lines[at] = `G44.9 ${lines[at].replace(/^G\d /, '')}`;
  return lines.join('\n');
}

/** Edits in the middle of a million lines, through the protocol, until new hints and findings are there. */
export async function typing(root: string): Promise<Figure[]> {
  const server = await ServerProcess.start(root);
  await server.open(program());
  const middle = await server.hints(MIDDLE, SCREEN);
  const key = await sample(server, KEYS, MIDDLE, turn =>
    turn % 2 === 0
      ? server.change([MIDDLE, 1], [MIDDLE, 1], '1')
      : server.change([MIDDLE, 1], [MIDDLE, 2], ''),
  );
  const lines = new TextDecoder('latin1')
    .decode(makeProgram('finishing', 10_010))
    .split('\n')
    .slice(8, 10_008);
  const block = `${lines.join('\n')}\n`;
  const many = await sample(server, 20, MIDDLE, turn =>
    turn % 2 === 0
      ? server.change([MIDDLE, 0], [MIDDLE, 0], block)
      : server.change([MIDDLE, 0], [MIDDLE + 10_000, 0], ''),
  );
  const units = await sample(server, 14, 0, turn =>
    turn % 2 === 0 ? server.change([1, 0], [1, 3], 'G20') : server.change([1, 0], [1, 3], 'G21'),
  );
  await server.stop();
  const against = 'empty round trip';
  const of = (name: string, taken: Taken, target?: [hints: number, findings: number]): Figure[] => [
    withTail(
      {
        ...figure(
          {
            name: `${name}: hints of ${middle.length} lines`,
            against,
            target: target?.[0],
            plain: ms(taken.hints),
          },
          ratios(taken.hints, taken.empty),
        ),
      },
      taken.hints,
    ),
    figure(
      { name: `${name}: findings after them`, against, target: target?.[1], plain: ms(taken.findings) },
      ratios(taken.findings, taken.empty),
    ),
  ];
  return [
    withTail(figure({ name: 'empty round trip', against: 'ms', plain: ms(key.empty) }, key.empty), key.empty),
    ...of('one key in the middle of 1,000,000 lines', key, [6, 12]),
    ...of('10,000 lines put in or taken out there', many),
    ...of('units changed in line 2, first screen', units),
  ];
}

function withTail(figure: Figure, values: readonly number[]): Figure {
  const sorted = [...values].sort((a, b) => a - b);
  const high = sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * 0.99))];
  return { ...figure, plain: `${figure.plain}, 99 of 100 within ${high.toFixed(1)} ms` };
}

/** Empty request, edit and hints in turn; then the findings of that edit. */
async function sample(
  server: ServerProcess,
  turns: number,
  first: number,
  edit: (turn: number) => number,
): Promise<Taken> {
  const taken: Taken = { empty: [], hints: [], findings: [] };
  for (let turn = -2; turn < turns; turn++) {
    // Quiet first: what the turn before left to be done is not part of this one.
    await new Promise(quiet => setTimeout(quiet, QUIET_MS));
    await server.empty();
    const t0 = performance.now();
    await server.empty();
    const t1 = performance.now();
    const version = edit(turn + 2);
    const findings = server.findings(version);
    await server.hints(first, SCREEN);
    const t2 = performance.now();
    await findings;
    const t3 = performance.now();
    if (turn < 0) continue;
    taken.empty.push(t1 - t0);
    taken.hints.push(t2 - t1);
    taken.findings.push(t3 - t1);
  }
  return taken;
}
