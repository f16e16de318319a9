import assert from 'node:assert/strict';
import { edited, fixture, problemScreen, sameScreen } from './screens.ts';
import { type Edit, inSession, type Problem, type Session, type Span } from './session.ts';

interface Action {
  title: string;
  kind?: string;
  diagnostics?: Problem[];
  edit?: { changes: Record<string, Edit[]> };
}

const PROGRAM = `%
O1001 (COVER PLATE, HOLLOW MILL JOB SHOP)
G20 G17 G40 G49 G80 G90 G94
T2 M6 (1/2 END MILL 3 FLUTE CARBIDE)
S8000 M3
G54 G0 X-.5 Y0.
G43 H2 Z1. M8
G1 Z-.25 F30.
X4. F96.
Y2.
G0 Z1. M9
M5
M30
%
`;
const SHEET = `{
  "units": "inch",
  "machine": { "kind": "mill", "dialect": "iso6983" },
  "workpiece": { "material": "6061-T6" },
  "tools": { "2": { "kind": "end-mill", "diameter": 0.5, "teeth": 3, "substrate": "carbide" } }
}
`;
/** The program under test with its sheet. */
const job = (program: string) => ({ 'plate.nc': program, 'plate.setup.json': SHEET });
const lines = PROGRAM.split('\n');
const at = (block: string) => lines.indexOf(block);

const codes = (problems: readonly Problem[]) => problems.map(({ code }) => code);

/** Actions at a place, titles with what the program would become. */
function actionsAt(session: Session, uri: string, range: Span): Promise<Action[]> {
  return session.ask<Action[]>('codeAction', uri, { range, context: { diagnostics: [] } });
}

describe('problems over the protocol', () => {
  it('come with the edit that causes them, at the words, and go with the one that mends them', () =>
    inSession(job(PROGRAM), async session => {
      const uri = await session.open('plate.nc');
      assert.deepEqual(codes(await session.settled(uri)), []);
      const line = at('X4. F96.');
      const from = lines[line].indexOf('F96.');
      await session.edit(uri, [line, from], [line, from + 4], 'F900.');
      await session.settled(uri);
      const start = at('S8000 M3');
      await session.edit(uri, [start, 7], [start, 8], '5');
      const broken = await session.settled(uri);
      const text = PROGRAM.replace('F96.', 'F900.').replace('S8000 M3', 'S8000 M5');
      sameScreen('problems-plate', problemScreen(text, broken));
      await session.edit(uri, [start, 7], [start, 8], '3');
      await session.settled(uri);
      await session.edit(uri, [line, from], [line, from + 5], 'F96.');
      assert.deepEqual(codes(await session.settled(uri)), []);
    }));

  it('of a fixture at rest are none or the known ones', () =>
    inSession({ 'valve.nc': fixture('valve/valve.nc') }, async session => {
      const uri = await session.open('valve.nc');
      const text = problemScreen(fixture('valve/valve.nc'), await session.settled(uri));
      sameScreen('problems-valve-without-a-sheet', text);
    }));

  it('lead to their page where the client has our commands, and nowhere else', async () => {
    const bad = job(PROGRAM.replace('S8000 M3', 'S8000 M5'));
    for (const commands of [true, false])
      await inSession(
        bad,
        async session => {
          const uri = await session.open('plate.nc');
          const [problem] = await session.settled(uri);
          const href = `command:tapeproof.explain?${encodeURIComponent(JSON.stringify([uri, problem.code]))}`;
          assert.equal(problem.codeDescription?.href, commands ? href : undefined);
        },
        { commands },
      );
  });

  it('go away with the document', () =>
    inSession(job(PROGRAM.replace('S8000 M3', 'S8000 M5')), async session => {
      const uri = await session.open('plate.nc');
      assert.notEqual((await session.settled(uri)).length, 0);
      await session.shut(uri);
      await session.until(() => session.diagnostics.get(uri)?.length === 0, 'an empty list');
    }));

  it('follow the settings: severity by code, off, and the most that is sent', () => {
    const bad = PROGRAM.replace('S8000 M3', 'S8000 M5').replace('Y2.', 'G0 G1 Y2.\nG0 G1 Y3.\nG0 G1 Y4.');
    const conflicts = (problems: Problem[]) => problems.filter(({ code }) => code === 'group-conflict');
    return inSession(job(bad), async session => {
      const uri = await session.open('plate.nc');
      const before = await session.settled(uri);
      assert.ok(conflicts(before).length > 0, codes(before).join());
      session.settings = { findings: { 'group-conflict': 'hint' }, maxProblems: 1 };
      session.status.clear();
      await session.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
      const capped = await session.settled(uri);
      assert.equal(capped.length, 2, codes(capped).join());
      assert.equal(capped[1].code, 'more-findings');
      session.settings = { findings: { 'group-conflict': 'off' } };
      session.status.clear();
      await session.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
      assert.deepEqual(conflicts(await session.settled(uri)), []);
    });
  });
});

describe('fixes over the protocol', () => {
  it('are edits of this program; applied, the problem is gone', () => {
    const text = PROGRAM.replace('F96.', 'F900.');
    return inSession(job(text), async session => {
      const uri = await session.open('plate.nc');
      const [problem] = await session.settled(uri);
      assert.equal(problem?.code, 'chip-load-high');
      const actions = await actionsAt(session, uri, problem.range);
      const screens = actions.map(({ title, edit }) => {
        const now = edited(text, edit?.changes[uri] ?? []);
        const changed = now.split('\n').filter(line => !text.split('\n').includes(line));
        return `${title}\n${changed.map(line => `    ${line}`).join('\n')}`;
      });
      sameScreen('fixes-plate', screens.join('\n'));
      const fix = actions.find(({ title }) => !title.startsWith('Silence'));
      assert.ok(fix?.edit, 'no fix');
      for (const edit of fix.edit.changes[uri])
        await session.change(uri, [{ range: edit.range, text: edit.newText }]);
      assert.deepEqual(codes(await session.settled(uri)), []);
    });
  });

  it('a silence with a reason hides the finding, and one without does not', () => {
    const text = PROGRAM.replace('F96.', 'F900.');
    return inSession(job(text), async session => {
      const uri = await session.open('plate.nc');
      const [problem] = await session.settled(uri);
      const silence = (await actionsAt(session, uri, problem.range)).find(({ title }) =>
        /^Silence/.test(title),
      );
      const [edit] = silence?.edit?.changes[uri] ?? [];
      assert.match(edit?.newText ?? '', /\(OK chip-load-high: /);
      await session.change(uri, [{ range: edit.range, text: edit.newText }]);
      assert.ok((await session.settled(uri)).length > 0, 'a blank for the reason silenced it');
      const line = edit.range.start.line;
      const end = edit.range.start.character;
      await session.edit(
        uri,
        [line, end],
        [line, end + edit.newText.length],
        ' (OK chip-load-high: soft foam, tried)',
      );
      assert.deepEqual(codes(await session.settled(uri)), []);
    });
  });

  it('there are none where nothing is found', () =>
    inSession(job(PROGRAM), async session => {
      const uri = await session.open('plate.nc');
      await session.settled(uri);
      const start = { line: 0, character: 0 };
      assert.deepEqual(await actionsAt(session, uri, { start, end: { line: 99, character: 0 } }), []);
    }));
});
