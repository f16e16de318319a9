import { type Figure, figure, ms, ratios } from './figures.ts';
import { ServerProcess, URI } from './server-process.ts';

const MOVES = 20_000;
const SCREEN = 60;
const KEYS = 12;
/** So long after a key that the stock is at work again. */
const AFTER_KEY_MS = 400;
const BETWEEN_MS = 10;

const SHEET =
  '{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "C45", "stock": { "shape": "block", "size": [200, 150, 30], "zero": [0, 0, 30] } }, "tools": { "1": { "kind": "end-mill", "diameter": 10, "teeth": 4, "substrate": "carbide" } } }';

/** Raster passes with a rising and falling floor, level under level, in segments of half a millimetre. */
function program(): string {
  const lines = ['G21 G17 G90 G94', 'T1 M6', 'G54 S4000 M3', 'G0 X5. Y5. Z5.', 'F800.'];
  const floor = (x: number, y: number, level: number) =>
    (Math.sin(x / 9) + Math.cos(y / 7) - 3 * level).toFixed(3);
  for (let level = 1; lines.length < MOVES; level++)
    for (let pass = 0; pass < 28 && lines.length < MOVES; pass++)
      for (let k = 0; k <= 380 && lines.length < MOVES; k++) {
        const x = pass % 2 === 0 ? 5 + k / 2 : 195 - k / 2;
        lines.push(`G1 X${x.toFixed(1)} Y${5 + 5 * pass}. Z${floor(x, 5 + 5 * pass, level)}`);
      }
  return [...lines, 'G0 Z20.', 'M30'].join('\n');
}

const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

/** Hints along a program while its stock is worked out, against the same requests when all is at rest. */
export async function stockTyping(root: string): Promise<Figure[]> {
  const server = await ServerProcess.start(root, undefined, { [URI.replace('.nc', '.setup.json')]: SHEET });
  const opened = performance.now();
  await server.open(program());
  let at = 0;
  const next = () => {
    at = (at + 997) % (MOVES - SCREEN);
    return at;
  };
  const first = JSON.stringify(await server.hints(10, 1));
  let shown = Number.NaN;
  const meanwhile: number[] = [];
  const began = performance.now();
  while (!server.atRest) {
    meanwhile.push(await timed(() => server.hints(next(), SCREEN)));
    if (Number.isNaN(shown) && JSON.stringify(await server.hints(10, 1)) !== first)
      shown = performance.now() - opened;
    await pause(BETWEEN_MS);
  }
  const whole = performance.now() - began;
  const rest: number[] = [];
  for (let turn = 0; turn < meanwhile.length; turn++) {
    rest.push(await timed(() => server.hints(next(), SCREEN)));
    await pause(BETWEEN_MS);
  }
  const keys: { busy: number[]; rest: number[] } = { busy: [], rest: [] };
  const key = (turn: number) =>
    timed(async () => {
      // a coordinate of a move near the start, so that all after it may have to be cut again
      server.change([40, 4], [40, 4], '');
      server.change([40, 4], [40, 5], `${turn % 10}`);
      await server.hints(MOVES / 2, SCREEN);
    });
  for (let turn = 0; turn < KEYS; turn++) {
    keys.rest.push(await key(2 * turn));
    await pause(AFTER_KEY_MS);
    keys.busy.push(await key(2 * turn + 1));
    for (await pause(AFTER_KEY_MS); !server.atRest; ) await pause(BETWEEN_MS);
  }
  await server.stop();
  const against = 'the same at rest';
  return [
    figure(
      {
        name: 'first figures of the stock in a hint, 20,000 moves',
        against: 'all of them',
        plain: `${shown.toFixed(0)} ms after opening, all after ${whole.toFixed(0)} ms`,
      },
      [shown / whole],
    ),
    figure(
      {
        name: 'hints of a screen while the stock is cut',
        against,
        plain: `${ms(meanwhile)}, 99 of 100 within ${tail(meanwhile).toFixed(0)} ms; at rest ${ms(rest)} and ${tail(rest).toFixed(0)} ms`,
      },
      ratios(meanwhile, rest),
    ),
    figure(
      {
        name: 'a key and its hints while the stock is cut',
        against,
        plain: `${ms(keys.busy)}; at rest ${ms(keys.rest)}`,
      },
      ratios(keys.busy, keys.rest),
    ),
  ];
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

function tail(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * 0.99))];
}
