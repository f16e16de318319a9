import type { CodeAction, Range, TextEdit } from 'vscode-languageserver';
import type { Finding, Fix } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import { REASON_BLANK } from '../review/silence.ts';
import { diagnosticOf } from './diagnostics.ts';
import { CodeActionKind } from './library.ts';

/** Fixes of the findings at a place, each with its edit, so that the editor can show a preview and undo it in one step. */
export function codeActions(review: Review, uri: string, range: Range): CodeAction[] {
  const actions: CodeAction[] = [];
  for (const finding of review.findings) {
    if (finding.file !== undefined || !touches(finding, range)) continue;
    for (const fix of finding.fixes ?? []) if (!fix.file) actions.push(fixAction(finding, fix, uri));
    actions.push(silenceAction(review, finding, uri));
  }
  return actions;
}

function touches(finding: Finding, range: Range): boolean {
  return finding.line <= range.end.line && finding.end_line >= range.start.line;
}

function fixAction(finding: Finding, fix: Fix, uri: string): CodeAction {
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnosticOf(finding, uri)],
    edit: { changes: { [uri]: fix.edits.map(editOf) } },
  };
}

function editOf(edit: Fix['edits'][number]): TextEdit {
  return {
    range: {
      start: { line: edit.line, character: edit.column },
      end: { line: edit.end_line, character: edit.end_column },
    },
    newText: edit.text,
  };
}

/** Writes the comment that silences a finding, with the place for the reason. */
function silenceAction(review: Review, finding: Finding, uri: string): CodeAction {
  const end = review.program.reading.text.lineText(finding.line).trimEnd().length;
  const at = { line: finding.line, character: end };
  return {
    title: `Silence ${finding.code} on this block: write the reason in the comment`,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnosticOf(finding, uri)],
    edit: {
      changes: {
        [uri]: [{ range: { start: at, end: at }, newText: ` (OK ${finding.code}: ${REASON_BLANK})` }],
      },
    },
  };
}
