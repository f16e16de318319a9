import assert from 'node:assert/strict';
import { ProgramText, readProgram } from '../../../server/src/rs274/index.ts';

/** Arcs with R in all sizes, both ways round and in both planes; some cannot be made. */
function program(lines: number): string {
  let state = 5;
  const random = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  const number = () => (random() * 20 - 10).toFixed(Math.floor(random() * 4));
  const codes = ['G1', 'G2', 'G3', 'G0', 'G18 G3', 'G17', 'G2'];
  let text = 'G21 G90 G17\nG0 X0 Y0 Z0\nF100\n';
  for (let i = 0; i < lines; i++) {
    const radius = random() < 0.6 ? `R${((random() * 2 - 1) * 30).toFixed(2)}` : '';
    text += `${codes[Math.floor(random() * codes.length)]} X${number()} Y${number()} Z${number()} ${radius}\n`;
  }
  return text;
}

describe('arcs with R', () => {
  it('go the short and the long way to the same moves', () => {
    const text = program(3000);
    const fast = readProgram(ProgramText.fromString(text));
    const slow = readProgram(ProgramText.fromString(text), { slow_only: true });
    const [a, b] = [fast.cursor(), slow.cursor()];
    while (a.next()) {
      assert.ok(b.next());
      assert.deepEqual([a.line, a.kind, a.x, a.y, a.z], [b.line, b.kind, b.x, b.y, b.z]);
      for (const name of ['centre_first', 'centre_second', 'sweep_rad'] as const)
        assert.ok(!(Math.abs(a[name] - b[name]) > 1e-9), `${name} of line ${a.line}: ${a[name]}, ${b[name]}`);
    }
    assert.ok(!b.next());
    assert.deepEqual(fast.problems(), slow.problems());
  });
});
