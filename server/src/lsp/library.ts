/** What we use of the protocol library at run time, in one place: each file that imports from it copies all its names at start. */
export {
  CodeActionKind,
  CompletionItemKind,
  DiagnosticSeverity,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  FoldingRangeKind,
  LSPErrorCodes,
  MarkupKind,
  ResponseError,
  SymbolKind,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
