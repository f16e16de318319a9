import type { Diagnostic } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { SheetProblem } from '../setup/index.ts';
import { DiagnosticSeverity } from './library.ts';

/** Problems of a setup sheet or crib as the editor's problems. */
export function sheetDiagnostics(problems: readonly SheetProblem[], document: TextDocument): Diagnostic[] {
  return problems.map(problem => ({
    range: {
      start: document.positionAt(problem.offset),
      end: document.positionAt(problem.offset + problem.length),
    },
    severity: problem.severity === 'error' ? DiagnosticSeverity.Error : DiagnosticSeverity.Warning,
    source: 'tapeproof',
    code: problem.code,
    message: problem.message,
  }));
}
