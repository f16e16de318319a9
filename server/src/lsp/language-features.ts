import type {
  CompletionItem,
  DocumentSymbol,
  FoldingRange,
  Location,
  SelectionRange,
  SemanticTokens,
  SignatureHelp,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver';
import type { Reading } from '../rs274/index.ts';
import { completions } from './completion.ts';
import { definitions } from './definition.ts';
import type { Feature } from './feature.ts';
import { foldingRanges } from './folding.ts';
import { formatEdits } from './format.ts';
import { guard } from './guard.ts';
import { references, rename } from './references.ts';
import { selectionRanges } from './selection.ts';
import { SEMANTIC_LEGEND, semanticTokens } from './semantic-tokens.ts';
import type { Server } from './server.ts';
import { signatureHelp } from './signature.ts';
import { documentSymbols } from './symbols.ts';

/** Answers from the reading of an open program; `empty` when it is not open. */
function fromReading<P extends { textDocument: { uri: string } }, R>(
  { connection, jobs }: Server,
  name: string,
  empty: R,
  answer: (reading: Reading, params: P) => R,
) {
  return guard<P, R>(connection, name, empty, async params => {
    const job = await jobs.job(params.textDocument.uri);
    return job ? answer(job.review.program.reading, params) : empty;
  });
}

/** Features that the language alone answers: each a pure function over the reading. */
export const languageFeatures: readonly Feature[] = [
  {
    name: 'completion',
    capabilities: { completionProvider: { triggerCharacters: ['G', 'g', 'M', 'm'] } },
    register(server) {
      server.connection.onCompletion(
        fromReading(server, 'completion', [] as CompletionItem[], (reading, { position }) =>
          completions(reading, position),
        ),
      );
    },
  },
  {
    name: 'signature help',
    capabilities: { signatureHelpProvider: { triggerCharacters: [' '] } },
    register(server) {
      server.connection.onSignatureHelp(
        fromReading(
          server,
          'signature help',
          null as SignatureHelp | null,
          (reading, { position }) => signatureHelp(reading, position) ?? null,
        ),
      );
    },
  },
  {
    name: 'definition',
    capabilities: { definitionProvider: true },
    register(server) {
      server.connection.onDefinition(
        fromReading(server, 'definition', [] as Location[], (reading, { textDocument, position }) =>
          definitions(reading, textDocument.uri, position),
        ),
      );
    },
  },
  {
    name: 'references',
    capabilities: { referencesProvider: true },
    register(server) {
      server.connection.onReferences(
        fromReading(server, 'references', [] as Location[], (reading, { textDocument, position, context }) =>
          references(reading, textDocument.uri, position, context.includeDeclaration),
        ),
      );
    },
  },
  {
    name: 'rename',
    capabilities: { renameProvider: true },
    register(server) {
      server.connection.onRenameRequest(
        fromReading(
          server,
          'rename',
          null as WorkspaceEdit | null,
          (reading, { textDocument, position, newName }) =>
            rename(reading, textDocument.uri, position, newName) ?? null,
        ),
      );
    },
  },
  {
    name: 'document symbols',
    capabilities: { documentSymbolProvider: true },
    register(server) {
      server.connection.onDocumentSymbol(
        fromReading(server, 'document symbols', [] as DocumentSymbol[], reading => documentSymbols(reading)),
      );
    },
  },
  {
    name: 'folding',
    capabilities: { foldingRangeProvider: true },
    register(server) {
      server.connection.onFoldingRanges(
        fromReading(server, 'folding', [] as FoldingRange[], reading => foldingRanges(reading)),
      );
    },
  },
  {
    name: 'selection ranges',
    capabilities: { selectionRangeProvider: true },
    register(server) {
      server.connection.onSelectionRanges(
        fromReading(server, 'selection ranges', [] as SelectionRange[], (reading, { positions }) =>
          selectionRanges(reading, positions),
        ),
      );
    },
  },
  {
    name: 'semantic tokens',
    capabilities: { semanticTokensProvider: { legend: SEMANTIC_LEGEND, range: true, full: false } },
    register(server) {
      server.connection.languages.semanticTokens.onRange(
        guard(
          server.connection,
          'semantic tokens',
          { data: [] } as SemanticTokens,
          ({ textDocument, range }) => {
            const program = server.program(textDocument.uri);
            return { data: program ? semanticTokens(program.text, range) : [] };
          },
        ),
      );
    },
  },
  {
    name: 'formatting',
    capabilities: { documentFormattingProvider: true, documentRangeFormattingProvider: true },
    register(server) {
      server.connection.onDocumentFormatting(
        fromReading(server, 'formatting', [] as TextEdit[], reading =>
          formatEdits(reading.text, reading.settled),
        ),
      );
      server.connection.onDocumentRangeFormatting(
        fromReading(server, 'range formatting', [] as TextEdit[], (reading, { range }) =>
          formatEdits(reading.text, reading.settled, range),
        ),
      );
    },
  },
];
