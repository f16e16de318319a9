import type { DocumentSymbol } from 'vscode-languageserver';
import type { Reading } from '../rs274/index.ts';
import { SymbolKind } from './library.ts';
import { type Section, sectionsOf } from './outline.ts';

const SYMBOL_KIND: Record<Section['kind'], SymbolKind> = {
  program: SymbolKind.Module,
  subroutine: SymbolKind.Function,
  tool: SymbolKind.Class,
  loop: SymbolKind.Event,
  header: SymbolKind.String,
};

/** Outline of a program: O programs, subroutines and tools, each inside what holds it. */
export function documentSymbols(reading: Reading): DocumentSymbol[] {
  const roots: DocumentSymbol[] = [];
  const open: { section: Section; symbol: DocumentSymbol }[] = [];
  for (const section of sectionsOf(reading)) {
    if (section.kind === 'loop') continue;
    const symbol = symbolFor(reading, section);
    while (open.length > 0 && open[open.length - 1].section.last < section.last) open.pop();
    const parent = open[open.length - 1];
    if (parent === undefined) roots.push(symbol);
    else parent.symbol.children = [...(parent.symbol.children ?? []), symbol];
    open.push({ section, symbol });
  }
  return roots;
}

function symbolFor(reading: Reading, { kind, name, detail, first, last }: Section): DocumentSymbol {
  const { text } = reading;
  const line_end = text.lineText(first).length;
  return {
    name: name === '' ? '?' : name,
    detail,
    kind: SYMBOL_KIND[kind],
    range: {
      start: { line: first, character: 0 },
      end: { line: last, character: text.lineText(last).length },
    },
    selectionRange: { start: { line: first, character: 0 }, end: { line: first, character: line_end } },
  };
}
