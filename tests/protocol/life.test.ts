import assert from 'node:assert/strict';
import { Session } from './session.ts';

const PROGRAM = '%\nG21 G90 G94\nT1 M6 (10 MM END MILL 4 FLUTE)\nS5000 M3\nG1 X1. F300.\nM30\n%\n';
const ERROR = { cancelled: -32800, unknown: -32601, early: -32002 };

const codeOf = (error: unknown): number | undefined => (error as { code?: number }).code;

describe('life of the server over the protocol', () => {
  it('ends with 0 after shutdown and exit', async () => {
    const session = await Session.start({});
    await session.close();
    assert.equal(await session.ended(), 0);
    assert.deepEqual(session.errors, []);
  });

  it('ends with 1 after exit without shutdown', async () => {
    const session = await Session.start({});
    await session.connection.sendNotification('exit');
    assert.equal(await session.ended(), 1);
    session.connection.dispose();
  });

  it('ends when its input ends', async () => {
    const session = await Session.start({});
    session.connection.end();
    session.connection.dispose();
    session.hangUp();
    assert.notEqual(await session.ended(), null);
  });

  it('answers a cancelled request as cancelled and goes on', async () => {
    const session = await Session.start({ 'plate.nc': PROGRAM });
    const uri = await session.open('plate.nc');
    await session.settled(uri);
    const answers = await session.cancelled('textDocument/hover', {
      textDocument: { uri },
      position: { line: 4, character: 0 },
    });
    assert.ok(answers === ERROR.cancelled || answers === undefined, String(answers));
    assert.ok(await session.ask('hover', uri, { position: { line: 4, character: 0 } }));
    await session.close();
    assert.deepEqual(session.errors, []);
  });

  it('says that it does not know a request, and goes on', async () => {
    const session = await Session.start({ 'plate.nc': PROGRAM });
    await assert.rejects(
      session.request('tapeproof/noSuchThing', {}),
      error => codeOf(error) === ERROR.unknown,
    );
    const uri = await session.open('plate.nc');
    assert.deepEqual(await session.settled(uri), []);
    await session.close();
  });

  it('promises what the editor has a place for', async () => {
    const session = await Session.start({});
    assert.deepEqual(Object.keys(session.capabilities).sort(), [
      'codeActionProvider',
      'completionProvider',
      'definitionProvider',
      'documentFormattingProvider',
      'documentRangeFormattingProvider',
      'documentSymbolProvider',
      'foldingRangeProvider',
      'hoverProvider',
      'inlayHintProvider',
      'referencesProvider',
      'renameProvider',
      'selectionRangeProvider',
      'semanticTokensProvider',
      'signatureHelpProvider',
      'textDocumentSync',
      'workspace',
    ]);
    await session.close();
  });
});
