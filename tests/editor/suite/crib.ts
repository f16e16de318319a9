import * as vscode from 'vscode';
import { check, type Host, hintsOf, inTheme, openProgram, picture, until } from './support.ts';

const PROGRAM = (comment: string) =>
  `%\nG20 G17 G90 G94 G40\nT6 M6 ${comment}\nS6000 M3\nG54 G0 X0 Y0\nG43 H6 Z1.\nG1 Z-.1 F20.\nX4. F60.\nG0 Z1.\nM30\n%\n`;
const COMMENT = '(1/2 ROUGHER END MILL)';
const BARE =
  '%\nG20 G17 G90 G94 G40\nT1 M6\nS6000 M3\nG54 G0 X0 Y0\nG43 H1 Z1.\nG1 Z-.1 F60.\nX4.\nT2 M6\nS5000 M3\nG0 X0 Y0\nG43 H2 Z1.\nG1 Z-.1 F50.\nX4.\nM30\n%\n';
const STANDING = `{
  "units": "inch",
  "machines": { "mill-1": { "kind": "mill", "dialect": "iso6983", "standing": { "1": "em-half", "2": "em-quarter" } } },
  "tools": {
    "em-half": { "kind": "end-mill", "diameter": "1/2 in", "teeth": 3 },
    "em-quarter": { "kind": "end-mill", "diameter": "1/4 in", "teeth": 4 }
  }
}
`;

async function write(name: string, text: string): Promise<void> {
  const folder = vscode.workspace.workspaceFolders![0].uri;
  await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(folder, name), new TextEncoder().encode(text));
}

async function read(name: string): Promise<string> {
  const folder = vscode.workspace.workspaceFolders![0].uri;
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, name)));
}

/** Knowing the tool costs one click, once. */
export function cribCases(host: Host): void {
  const chosen = { into: 'crib', teeth: 3 };

  test('a crib with standing tools: a program without a comment shows chip load for all tools', async () => {
    await inTheme('Default Dark Modern');
    await write('standing/crib.json', STANDING);
    await write('standing/bare.nc', BARE);
    const document = await openProgram('standing/bare.nc');
    const hints = await until('chip load of both tools', async () => {
      const seen = (await hintsOf(document)).filter(hint => /in\/tooth .* sfm/.test(hint));
      return seen.length === 2 && seen;
    });
    check(hints[0].includes('0.0033 in/tooth'), hints.join(' | '));
    check(hints[1].includes('0.0025 in/tooth'), hints.join(' | '));
    if (host.url) await picture(host, 'standing-tools');
  });

  test('a comment confirmed once is known in the next program', async () => {
    await write('called/first.nc', PROGRAM(COMMENT));
    await write('called/second.nc', PROGRAM(COMMENT));
    const first = await openProgram('called/first.nc');
    await until('the question', async () => (await hintsOf(first)).some(hint => hint.includes('teeth?')));
    if (host.url) await picture(host, 'confirm-before');
    // What the list of tooth counts sends when a person picks one.
    await vscode.commands.executeCommand('tapeproof.confirmTool', first.uri.toString(), 6, chosen);
    await until('the crib', async () => {
      const names = (await vscode.workspace.fs.readDirectory(vscode.Uri.joinPath(first.uri, '..'))).map(
        ([name]) => name,
      );
      return names.includes('crib.json');
    });
    const crib = await read('called/crib.json');
    check(/"called": \[\s*"[^"]*1\/2 ROUGHER END MILL/.test(crib), crib);
    const second = await openProgram('called/second.nc');
    const known = await until('chip load in the next program', async () =>
      (await hintsOf(second)).find(hint => hint.includes('0.0033 in/tooth')),
    );
    check(known.includes('sfm'), known);
    if (host.url) await picture(host, 'confirm-after');
  });
}
