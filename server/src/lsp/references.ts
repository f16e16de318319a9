import type { Location, WorkspaceEdit } from 'vscode-languageserver';
import type { Reading } from '../rs274/index.ts';
import { placesOf, symbolAt } from './program-symbols.ts';

/** All places that use the thing under the cursor; with `including_makers` also where it is made. */
export function references(
  reading: Reading,
  uri: string,
  position: { line: number; character: number },
  including_makers: boolean,
): Location[] {
  const symbol = symbolAt(reading, position);
  if (symbol === undefined) return [];
  return placesOf(reading, symbol)
    .filter(place => including_makers || !place.makes)
    .map(({ range }) => ({ uri, range }));
}

/** Renames a named parameter or subroutine; undefined where the thing under the cursor has no name to change. */
export function rename(
  reading: Reading,
  uri: string,
  position: { line: number; character: number },
  name: string,
): WorkspaceEdit | undefined {
  const symbol = symbolAt(reading, position);
  const wanted = name.replace(/^[oO#]?<|>$/g, '').trim();
  if (symbol === undefined || !/^_?[a-z][a-z0-9_ -]*$/i.test(wanted) || /^\d+$/.test(symbol.name))
    return undefined;
  if (symbol.kind !== 'parameter' && symbol.kind !== 'subroutine') return undefined;
  // A leading _ makes a parameter global: that would change the meaning.
  if (symbol.kind === 'parameter' && symbol.name.startsWith('_') !== wanted.startsWith('_')) return undefined;
  const head = symbol.kind === 'parameter' ? '#' : 'o';
  return {
    changes: {
      [uri]: placesOf(reading, symbol).map(({ range }) => ({ range, newText: `${head}<${wanted}>` })),
    },
  };
}
