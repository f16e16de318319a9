import * as vscode from 'vscode';
import { check, type Host, hoverAt, openProgram, placeOf, until } from './support.ts';

/** Second side of the bracket without turning it: the end mill goes along the front edge again, deeper. */
const OP20 = `%
(PUMP BRACKET 20-41 OP20, HOLLOW MILL JOB SHOP)
G20 G17 G40 G49 G80 G90 G94
T2 M6
S8000 M3
G54 G0 X-.5 Y-.25
G43 H2 Z1.
Z-.35
G1 X4.5 F72.
G0 Z1.
M5
M30
%
`;

async function write(name: string, text: string): Promise<void> {
  const folder = vscode.workspace.workspaceFolders![0].uri;
  await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(folder, name), new TextEncoder().encode(text));
}

async function read(name: string): Promise<string> {
  const folder = vscode.workspace.workspaceFolders![0].uri;
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, name)));
}

const problemsOf = (document: vscode.TextDocument, name: string): string[] =>
  vscode.languages
    .getDiagnostics(vscode.Uri.joinPath(document.uri, '..', name))
    .map(({ message }) => message);

/** The stock of a program is what another program beside it leaves. */
export function twoPrograms(_host: Host): void {
  test('the second program of a part cuts what the first has left, and follows it', async () => {
    const first = await read('bracket/bracket.nc');
    const sheet = (await read('bracket/bracket.setup.json')).replace(
      /"stock": \{[^}]*\}/,
      '"stock": { "from": "bracket.nc" }',
    );
    check(sheet.includes('"from"'), 'the sheet of the bracket has no stock to replace');
    await write('two/op20.setup.json', sheet);
    await write('two/op20.nc', OP20);
    const document = await openProgram('two/op20.nc');
    await until('what cannot be read, at the sheet', () =>
      problemsOf(document, 'op20.setup.json').some(message => message.includes('bracket.nc')),
    );
    await write('two/bracket.setup.json', await read('bracket/bracket.setup.json'));
    await write('two/bracket.nc', first);
    const deep = (words: string) =>
      until(`axial depth ${words}`, async () =>
        (await hoverAt(document, placeOf(document, 'X4.5'))).includes(`axial depth | ${words}`),
      );
    // the profile stands at Z-.25, and this pass goes to Z-.35
    await deep('0.1');
    await write('two/bracket.nc', first.replace('G1 Z-.25 F30.', 'G1 Z-.3 F30.'));
    await deep('0.05');
    check(problemsOf(document, 'op20.setup.json').length === 0, 'the finding at the sheet is still there');
  });
}
