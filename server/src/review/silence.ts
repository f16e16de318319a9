import type { Finding, SilencedFinding } from './finding.ts';

/** A silence that a person wrote: a comment `(OK code: reason)`, or an entry in the setup sheet. */
export interface Silence {
  code: string;
  reason: string;
  /** Only this tool; undefined for all. */
  tool?: number;
  /** 0-based lines it holds for, end inclusive; undefined for the whole program. */
  from_line?: number;
  to_line?: number;
  /** Where it stands: the comment's line in the program, or none for the sheet. */
  line?: number;
  column?: number;
  end_column?: number;
}

/** What the editor writes where the person's reason belongs; it does not count as one. */
export const REASON_BLANK = 'REASON';

/** Reads `OK code: reason` out of a comment's text; null when the comment is not one. */
export function readSilence(comment: string): { code: string; reason: string } | null {
  const match = /^\s*OK\s+([a-z][a-z0-9-]*)\s*(?::\s*(.*?)\s*)?$/i.exec(comment);
  if (!match) return null;
  const reason = match[2] ?? '';
  return { code: match[1].toLowerCase(), reason: reason === REASON_BLANK ? '' : reason };
}

/**
 * Splits findings into those that stand and those that a person silenced with a reason. A silence without a
 * reason silences nothing; one that matches nothing is itself reported, so that silences do not rot.
 */
export function applySilences(
  findings: readonly Finding[],
  silences: readonly Silence[],
): { findings: readonly Finding[]; silenced: SilencedFinding[] } {
  if (silences.length === 0) return { findings, silenced: [] };
  const used = new Set<Silence>();
  const standing: Finding[] = [];
  const silenced: SilencedFinding[] = [];
  for (const finding of findings) {
    const silence = silences.find(s => s.reason !== '' && covers(s, finding));
    if (silence) {
      used.add(silence);
      silenced.push({ ...finding, reason: silence.reason });
    } else standing.push(finding);
  }
  for (const silence of silences) {
    if (used.has(silence) || silence.line === undefined) continue;
    standing.push({
      code: silence.reason === '' ? 'silence-without-reason' : 'silence-unused',
      severity: 'information',
      line: silence.line,
      column: silence.column ?? 0,
      end_line: silence.line,
      end_column: silence.end_column ?? 0,
      message:
        silence.reason === ''
          ? `Silences nothing yet: say why after the code, as in (OK ${silence.code}: reason).`
          : `Silences nothing: there is no ${silence.code} here. Take the comment out.`,
    });
  }
  return { findings: standing, silenced };
}

function covers(silence: Silence, finding: Finding): boolean {
  if (silence.code !== finding.code) return false;
  if (silence.tool !== undefined && silence.tool !== finding.tool) return false;
  if (silence.from_line !== undefined && finding.line < silence.from_line) return false;
  return silence.to_line === undefined || finding.line <= silence.to_line;
}
