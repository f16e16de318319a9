/** Stock that another program leaves, as the editor has it: the server reads that program through the client. */
import assert from 'node:assert/strict';
import type { Session } from './session.ts';
import { hoverSays, withFiles } from './stock-session.ts';

/** A slot of 10 mm along the middle of the block, `depth` under Z0. The cut is line 6. */
const SLOT = (depth: number) =>
  `G21 G17 G90 G94 G54\nT1 M6\nS4000 M3\nG0 X-10 Y20 Z5\nG0 Z-${depth}\nG1 X110 F800\nG0 Z5\nM30\n`;
const SHEET = (stock: string, setups = '') =>
  `{ "units": "mm", "machine": { "kind": "mill", "dialect": "iso6983" },
  "workpiece": { "material": "C45", "stock": ${stock} }, ${setups}
  "tools": { "1": { "kind": "end-mill", "diameter": 10, "teeth": 4, "substrate": "carbide" } } }`;
const BLOCK = '{ "shape": "block", "size": [100, 40, 20], "zero": [0, 0, 20] }';

/** The row of the hover that says how deep it cuts. */
const depth = (mm: number | string) => new RegExp(`axial depth \\| \\*\\*${mm} mm`);

const until = (session: Session, uri: string, wanted: RegExp) => hoverSays(session, uri, 5, wanted);

const sheetFindings = (session: Session, name: string): string[] =>
  (session.diagnostics.get(session.uri(name)) ?? []).map(({ code, message, range }) => {
    return `${code}@${range.start.line + 1}: ${message}`;
  });

const TWO = () => ({
  'op 10.nc': SLOT(4),
  'op 10.setup.json': SHEET(BLOCK),
  'op 20.nc': SLOT(6),
  'op 20.setup.json': SHEET('{ "from": "op 10.nc" }'),
});

describe('stock that another program leaves, over the protocol', () => {
  it('is cut from where that program stopped, and follows it when it changes on the disk', () =>
    withFiles(TWO(), async session => {
      const uri = await session.open('op 20.nc');
      await until(session, uri, depth(2));
      assert.deepEqual([...session.watched], ['op 10.nc']);
      await session.write('op 10.nc', SLOT(3));
      await until(session, uri, depth(3));
    }));

  it('follows that program while it is edited in another tab, and the disk again when the tab is shut', () =>
    withFiles(TWO(), async session => {
      const uri = await session.open('op 20.nc');
      const before = await session.open('op 10.nc');
      await until(session, uri, depth(2));
      await session.edit(before, [4, 5], [4, 6], '1');
      await until(session, uri, depth(5));
      await session.shut(before);
      await until(session, uri, depth(2));
    }));

  it('goes on through three programs, turned over with its own zero', () =>
    withFiles(
      {
        ...TWO(),
        'op 30.nc': SLOT(6),
        'op 30.setup.json': SHEET(
          '{ "from": "op 20.nc", "turn": "turn-z-180" }',
          '"setups": { "G54": { "zero": [0, 0, 20] } },',
        ),
        'op 20.setup.json': SHEET('{ "from": "op 10.nc" }'),
        'op 20.nc': SLOT(5.5),
      },
      async session => {
        const uri = await session.open('op 30.nc');
        await until(session, uri, depth('0\\\\.5'));
      },
    ));

  it('says at the sheet and in the status what cannot be read, until it is there', () => {
    const files: Record<string, string> = TWO();
    const { 'op 10.nc': text } = files;
    delete files['op 10.nc'];
    return withFiles(files, async session => {
      const uri = await session.open('op 20.nc');
      const why = 'the stock is what op 10.nc leaves, and that program cannot be read here: not there';
      const at = () => sheetFindings(session, 'op 20.setup.json');
      await session.until(() => at().length > 0, 'the finding at the sheet');
      assert.deepEqual(at(), [`setup-reference@2: T${why.slice(1)}.`]);
      await session.until(() => session.status.get(uri)?.detail?.includes(why) === true, 'the status');
      await session.write('op 10.nc', text);
      await until(session, uri, depth(2));
      await session.until(() => at().length === 0, 'the end of the finding');
      await session.write('op 10.setup.json', undefined);
      await session.until(() => at().length > 0, 'the finding at the sheet');
      assert.match(at()[0], /it has no setup sheet \(op 10\.setup\.json\)/);
    });
  });

  it('ends when programs start from each other', () =>
    withFiles(
      {
        'a.nc': SLOT(2),
        'a.setup.json': SHEET('{ "from": "b.nc" }'),
        'b.nc': SLOT(2),
        'b.setup.json': SHEET('{ "from": "a.nc" }'),
      },
      async session => {
        const uri = await session.open('a.nc');
        await session.until(
          () => /start from each other/.test(session.status.get(uri)?.detail ?? ''),
          'the status',
        );
      },
    ));
});
