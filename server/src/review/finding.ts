export const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A text edit; lines and columns 0-based, columns in UTF-16 units, end exclusive. */
export interface TextEdit {
  line: number;
  column: number;
  end_line: number;
  end_column: number;
  text: string;
}

export interface Fix {
  title: string;
  /** `safe`: same part, same motion. `asks`: changes speed, feed or path, so one click by a person, never in bulk. */
  grade: 'safe' | 'asks';
  edits: TextEdit[];
  /** File that is edited, when it is not the program itself. One fix edits one file. */
  file?: string;
}

export interface Place {
  line: number;
  column: number;
  end_line: number;
  end_column: number;
}

/** Something to fix or to know, at its place. Lines and columns 0-based inside; surfaces add one where the contract says so. */
export interface Finding extends Place {
  code: string;
  severity: Severity;
  message: string;
  tool?: number;
  source?: string;
  related?: { line: number; message: string }[];
  fixes?: Fix[];
  /** File the place is in, when it is not the program itself. */
  file?: string;
}

export interface SilencedFinding extends Finding {
  reason: string;
}

/** Sorts by harm, then by place. */
export function byHarm(a: Finding, b: Finding): number {
  return (
    SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) || a.line - b.line || a.column - b.column
  );
}
