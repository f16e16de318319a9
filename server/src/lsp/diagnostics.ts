import type { Diagnostic, DiagnosticRelatedInformation } from 'vscode-languageserver';
import type { Finding, Severity } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import { DiagnosticSeverity } from './library.ts';
import { commandUri } from './markdown.ts';

const LEVEL: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** Findings as the editor's problems, worst first and capped; what the cap leaves out is said once. */
export function diagnosticsOf(review: Review, uri: string, most: number, links = false): Diagnostic[] {
  const own = review.findings.filter(finding => finding.file === undefined);
  const shown = own.slice(0, most).map(finding => diagnosticOf(finding, uri, links));
  const left = own.length - shown.length;
  if (left > 0)
    shown.push({
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      severity: DiagnosticSeverity.Information,
      source: 'tapeproof',
      code: 'more-findings',
      message: `${left} more findings are not listed here. The command "Show the Review" lists all.`,
    });
  return shown;
}

/** With `links` the code leads to the page of the finding, by a command that our own client has. */
export function diagnosticOf(finding: Finding, uri: string, links = false): Diagnostic {
  const related: DiagnosticRelatedInformation[] | undefined = finding.related?.map(place => ({
    location: {
      uri,
      range: { start: { line: place.line, character: 0 }, end: { line: place.line, character: 1000 } },
    },
    message: place.message,
  }));
  return {
    range: {
      start: { line: finding.line, character: finding.column },
      end: { line: finding.end_line, character: finding.end_column },
    },
    severity: LEVEL[finding.severity],
    source: 'tapeproof',
    code: finding.code,
    ...(links ? { codeDescription: { href: commandUri('tapeproof.explain', [uri, finding.code]) } } : {}),
    message: finding.message,
    ...(related?.length ? { relatedInformation: related } : {}),
  };
}
