import assert from 'node:assert/strict';
import type { Answer, Place } from '../../server/src/lsp/protocol.ts';
import { edited, fixture, job, sameScreen } from './screens.ts';
import { inSession, type Session } from './session.ts';

const BARE = `%
O1002 (STOP BLOCK, HOLLOW MILL JOB SHOP)
G20 G17 G40 G49 G80 G90 G94
T6 M6 (1/2 ROUGHER END MILL)
S6000 M3
G54 G0 X0 Y0
G43 H6 Z1.
G1 Z-.1 F20.
X4. F60.
G0 Z1.
T7 M6 (3/8 END MILL 4 FLUTE)
S6000 M3
G0 X0 Y0
G43 H7 Z1.
G1 Z-.1 F20.
X4. F60.
G0 Z1.
M30
%
`;
const placeOf = (text: string, words: string): Place => {
  const line = text.split('\n').findIndex(row => row.includes(words));
  assert.ok(line >= 0, words);
  return { line, character: text.split('\n')[line].indexOf(words) };
};

/** An answer as a person meets it. */
function answerText(answer: Answer): string {
  switch (answer.do) {
    case 'say':
      return `says (${answer.severity}): ${answer.text}${answer.detail ? `\n${answer.detail}` : ''}`;
    case 'open':
      return `opens ${answer.uri}, beginning as\n${answer.content ?? 'it stands'}`;
    case 'page':
      return `shows "${answer.title}" (${answer.format}, saved as ${answer.file ?? 'no file'})\n${answer.content}`;
    case 'edit':
      return `edits ${answer.uri}: ${answer.label}\n${answer.create ?? JSON.stringify(answer.edits)}`;
    case 'ask': {
      const rows = answer.choices.map(({ label, description, detail }) =>
        [label, description, detail].filter(Boolean).join(' | '),
      );
      return `asks (${answer.many ? 'several' : 'one'}): ${answer.title}\n${rows.map(row => `  ${row}`).join('\n')}`;
    }
  }
}

/** Picks a choice by its label, as the client sends it. */
async function pick(session: Session, uri: string, answer: Answer, label: RegExp): Promise<Answer> {
  assert.equal(answer.do, 'ask');
  if (answer.do !== 'ask') throw new Error('not asked');
  const chosen = answer.choices.find(choice => label.test(choice.label));
  assert.ok(chosen, `${label} is not among ${answer.choices.map(choice => choice.label).join(', ')}`);
  return session.command<Answer>(answer.request, uri, undefined, [
    ...answer.args,
    answer.many ? [chosen.value] : chosen.value,
  ]);
}

/** Does what an edit says, in the files of the session. */
function write(session: Session, answer: Answer): void {
  assert.equal(answer.do, 'edit');
  if (answer.do !== 'edit') return;
  const name = answer.uri.slice(session.uri('').length);
  session.files[name] = answer.create ?? edited(session.files[name] ?? '', answer.edits);
}

async function toolHints(session: Session, uri: string): Promise<string[]> {
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const hints = await session.ask<{ label: string | { value: string }[] }[]>('inlayHint', uri, { range });
  return hints.map(({ label }) =>
    typeof label === 'string' ? label : label.map(part => part.value).join(''),
  );
}

describe('commands over the protocol', () => {
  it('openSetupSheet: a new sheet holds what the program says', () =>
    inSession({ 'stop.nc': BARE }, async session => {
      const uri = await session.open('stop.nc');
      sameScreen(
        'command-open-setup-sheet',
        answerText(await session.command<Answer>('openSetupSheet', uri)),
      );
    }));

  it('confirmTool: asks for the teeth, writes what was chosen, and the hint follows', () =>
    inSession({ 'stop.nc': BARE }, async session => {
      const uri = await session.open('stop.nc');
      await session.settled(uri);
      assert.match((await toolHints(session, uri))[0], /teeth\?/);
      const asked = await session.command<Answer>('confirmTool', uri, placeOf(BARE, 'X4. F60.'));
      const done = await pick(session, uri, asked, /^3 teeth/);
      sameScreen('command-confirm-tool', `${answerText(asked)}\n\n${answerText(done)}`);
      write(session, done);
      session.status.clear();
      await session.connection.sendNotification('tapeproof/recheckFiles', {});
      await session.settled(uri);
      assert.match((await toolHints(session, uri))[0], /0\.0033 in\/tooth/);
    }));

  it('confirmTool: a tool read whole is confirmed for this program alone', () =>
    inSession({ 'stop.nc': BARE }, async session => {
      const uri = await session.open('stop.nc');
      await session.settled(uri);
      const asked = await session.command<Answer>('confirmTool', uri, undefined, [7]);
      assert.equal(asked.do, 'ask');
      if (asked.do !== 'ask') return;
      const [, sheet] = asked.choices;
      const done = await session.command<Answer>('confirmTool', uri, undefined, [...asked.args, sheet.value]);
      sameScreen('command-confirm-read-tool', `${answerText(asked)}\n\n${answerText(done)}`);
      write(session, done);
      session.status.clear();
      await session.connection.sendNotification('tapeproof/recheckFiles', {});
      await session.settled(uri);
      const again = await session.command<Answer>('confirmTool', uri, undefined, [7]);
      assert.match(answerText(again), /^says \(information\): T7 is known: /);
    }));

  it('confirmTool: says where there is no tool', () =>
    inSession({ 'stop.nc': BARE }, async session => {
      const uri = await session.open('stop.nc');
      const answer = await session.command<Answer>('confirmTool', uri, { line: 0, character: 0 });
      assert.equal(answerText(answer), 'says (information): No tool is in use at this line.');
    }));

  it('confirmAllTools: lists those read from comments and writes those ticked', () =>
    inSession({ 'bracket.nc': fixture('bracket/bracket.nc') }, async session => {
      const uri = await session.open('bracket.nc');
      await session.settled(uri);
      const asked = await session.command<Answer>('confirmAllTools', uri);
      const done = await pick(session, uri, asked, /^T2/);
      sameScreen('command-confirm-all-tools', `${answerText(asked)}\n\n${answerText(done)}`);
    }));

  it('chooseDialect: says what was read and why; a choice goes into the sheet', () => {
    const files = { ...job('bushing', false), 'bushing.setup.json': '{\n  // ours\n  "units": "mm"\n}\n' };
    return inSession(files, async session => {
      const uri = await session.open('bushing.nc');
      await session.settled(uri);
      const asked = await session.command<Answer>('chooseDialect', uri);
      const done = await pick(session, uri, asked, /^lathe-b$/);
      write(session, done);
      const sheet = session.files['bushing.setup.json'];
      sameScreen('command-choose-dialect', `${answerText(asked)}\n\nthe sheet is then\n${sheet}`);
    });
  });

  it('checkBeforeSending: one page, with its sheet and without', () =>
    inSession({ 'stop.nc': BARE, ...job('bracket', true) }, async session => {
      const screens: string[] = [];
      for (const name of ['bracket.nc', 'stop.nc']) {
        const uri = await session.open(name);
        await session.settled(uri);
        screens.push(answerText(await session.command<Answer>('checkBeforeSending', uri)));
      }
      sameScreen('command-check-before-sending', screens.join('\n\n=====\n\n'));
    }));

  it('showReport and showProveout are pages that load nothing', () =>
    inSession(job('valve', true), async session => {
      const uri = await session.open('valve.nc');
      await session.settled(uri);
      for (const [command, file] of [
        ['showReport', 'valve.nc.review.html'],
        ['showProveout', 'valve.nc.proveout.html'],
      ]) {
        const answer = await session.command<Answer>(command, uri);
        assert.equal(answer.do, 'page');
        if (answer.do !== 'page') return;
        assert.equal(answer.file, file);
        assert.match(answer.content, /^<!DOCTYPE html>/);
        assert.doesNotMatch(answer.content, /<script|src=|https?:|url\(/);
      }
    }));

  it('sayBlock: sentences, of a cut and of a block without a move', () =>
    inSession(job('bracket', true), async session => {
      const uri = await session.open('bracket.nc');
      await session.settled(uri);
      const { 'bracket.nc': text } = session.files;
      const said: string[] = [];
      for (const words of ['G41 D2', 'N20 T2', '(PROFILE)', 'G99 G83'])
        said.push(answerText(await session.command<Answer>('sayBlock', uri, placeOf(text, words))));
      sameScreen('command-say-block', said.join('\n\n'));
    }));

  it('explain: the finding at the line, else the word, else says so', () =>
    inSession({ 'stop.nc': BARE.replace('X4. F60.', 'G0 G1 X4. F60.') }, async session => {
      const uri = await session.open('stop.nc');
      await session.settled(uri);
      const { 'stop.nc': text } = session.files;
      const finding = await session.command<Answer>('explain', uri, placeOf(text, 'G0 G1'));
      const word = await session.command<Answer>('explain', uri, placeOf(text, 'G54'));
      const nothing = await session.command<Answer>('explain', uri, placeOf(text, '%'));
      const titles = [finding, word].map(answer =>
        answer.do === 'page' ? answer.title : answerText(answer),
      );
      assert.deepEqual(titles, ['What it is: group-conflict', 'What it is: G54']);
      assert.equal(answerText(nothing), 'says (information): There is nothing here that has a page.');
    }));

  it('renumber: numbers anew and keeps what points at blocks', () =>
    inSession(job('bushing', false), async session => {
      const uri = await session.open('bushing.nc');
      await session.settled(uri);
      const asked = await session.command<Answer>('renumber', uri);
      const done = await pick(session, uri, asked, /^N1, N2/);
      assert.equal(done.do, 'edit');
      if (done.do !== 'edit') return;
      const text = edited(session.files['bushing.nc'], done.edits);
      sameScreen('command-renumber', `${answerText(asked)}\n\n${text}`);
    }));

  it('an unsaved program has no place for a sheet, and says so', () =>
    inSession({}, async session => {
      await session.openText('untitled:Untitled-1', BARE);
      for (const command of ['openSetupSheet', 'confirmTool', 'confirmAllTools', 'chooseDialect'])
        assert.equal(
          answerText(
            await session.command<Answer>(command, 'untitled:Untitled-1', placeOf(BARE, 'X4. F60.')),
          ),
          'says (information): Save the program first: its setup sheet lies beside it.',
        );
    }));

  it('a program that is not open is asked for', () =>
    inSession({}, async session => {
      const answer = await session.command<Answer>('sayBlock', session.uri('gone.nc'));
      assert.equal(answerText(answer), 'says (information): Open the program first.');
    }));
});
