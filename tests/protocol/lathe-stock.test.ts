/** The bar of a lathe as the editor has it: cut beside the server in pieces, and going on from another program. */
import assert from 'node:assert/strict';
import type { Session } from './session.ts';
import { hoverSays, withFiles } from './stock-session.ts';

const SHEET = (stock: string, edge = 90) =>
  `{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" },
  "workpiece": { "material": "C45", "stock": ${stock} },
  "tools": { "1": { "kind": "turn", "nose_radius": 0, "edge_angle_deg": ${edge}, "point_angle_deg": 55, "substrate": "carbide" } } }`;
const BAR = (length: number) => `{ "shape": "bar", "diameter": 50, "length": ${length}, "face": 1 }`;
/** One pass to a diameter; the cut is line 5. */
const PASS = (diameter: number, z: number) =>
  `G21 G18 G40 G99\nT0101\nG97 S1000 M3\nG0 X${diameter}. Z2.\nG1 Z-${z}. F0.2\nG0 X52.\nZ50.\nM30\n`;

const TWO = (second = '{ "from": "op 10.nc", "turn": "other-end", "face": 0 }') => ({
  'op 10.nc': PASS(46, 60),
  'op 10.setup.json': SHEET(BAR(81)),
  // 81 long: what the first operation turned to 46 is 61 long and lies behind Z-20 now
  'op 20.nc': PASS(44, 15),
  'op 20.setup.json': SHEET(second),
});

const depth = (mm: string) => new RegExp(`depth of cut \\| \\*\\*${mm} mm`);

const until = (session: Session, uri: string, wanted: RegExp) => hoverSays(session, uri, 4, wanted);

/** A first pass, then many long arcs with an edge of 45 degrees: seconds of work. The first cut is line 5. */
function long(): string {
  const lines = [
    'G21 G18 G40 G99',
    'T0101',
    'G97 S1000 M3',
    'G0 X48. Z2.',
    'G1 Z-30. F0.2',
    'G0 X52.',
    'Z2.',
  ];
  for (let k = 0; k < 1500; k++)
    lines.push(`G0 X${(40 - k / 100).toFixed(2)}`, 'G3 X48. Z-80. R82.', 'G0 X52.', 'Z2.');
  return `${lines.join('\n')}\nM30\n`;
}

describe('lathe stock over the protocol', () => {
  it('shows the first figures and answers while the rest of a long program is still being cut', () =>
    withFiles({ 'long.nc': long(), 'long.setup.json': SHEET(BAR(600), 45) }, async session => {
      const uri = await session.open('long.nc');
      // from a radius of 25 to 24, then to 23.5: the slope of the edge at the end does not count
      await until(session, uri, depth('1'));
      assert.equal(session.status.get(uri)?.busy, true, 'all was cut before the first figures came');
      // a key in the middle of the work: answered, and what is cut again begins with the first pass
      await session.edit(uri, [3, 4], [3, 6], '47');
      await until(session, uri, depth('1\\\\.5'));
      assert.equal(session.status.get(uri)?.busy, true);
    }));

  it('goes on from another program, turned round, and follows it when it changes on the disk', () =>
    withFiles(TWO(), async session => {
      const uri = await session.open('op 20.nc');
      await until(session, uri, depth('3'));
      assert.deepEqual([...session.watched], ['op 10.nc']);
      await session.write('op 10.nc', PASS(46, 81));
      await until(session, uri, depth('1'));
    }));

  it('says at the sheet what is missing of the other program, until it is there', () =>
    withFiles(TWO('{ "from": "op 10.nc", "turn": "other-end" }'), async session => {
      const uri = await session.open('op 20.nc');
      const at = () =>
        (session.diagnostics.get(session.uri('op 20.setup.json')) ?? []).map(
          ({ code, message, range }) =>
            `${code}@${range.start.line + 1}:${range.start.character}: ${message}`,
        );
      await session.until(() => at().length > 0, 'the finding at the sheet');
      assert.deepEqual(at(), [
        'setup-reference@2:75: The sheet does not say at which Z the end face of the turned part is ("face").',
      ]);
      const told = () =>
        /no stock: the sheet does not say at which Z/.test(session.status.get(uri)?.detail ?? '');
      await session.until(told, 'the status');
      await session.write(
        'op 20.setup.json',
        SHEET('{ "from": "op 10.nc", "turn": "other-end", "face": 0 }'),
      );
      await until(session, uri, depth('3'));
      await session.until(() => at().length === 0, 'the end of the finding');
    }));
});
