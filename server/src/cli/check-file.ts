import { findingJson, silencedJson } from '../report/json.ts';
import { type SarifPart, sarifPart } from '../report/sarif.ts';
import { findingLine, verdict } from '../report/text.ts';
import type { Severity } from '../review/finding.ts';
import { type Arguments, UsageError } from './arguments.ts';
import { type Loaded, load } from './load.ts';

export type CheckFormat = 'text' | 'json' | 'sarif';

/** What the check of one file came to: plain data, so that it can come from another thread. */
export interface FileCheck {
  path: string;
  severities: Severity[];
  complete: boolean;
  text?: string;
  json?: unknown;
  sarif?: SarifPart;
  /** Why the file could not be read or reviewed. */
  failed?: { usage: boolean; why: string };
}

/** Checks one file; never throws. */
export async function checkFile(path: string, args: Arguments, format: CheckFormat): Promise<FileCheck> {
  try {
    const loaded = await load(path, args);
    const { review } = loaded;
    const result = { path, severities: review.findings.map(f => f.severity), complete: review.complete };
    if (format === 'json') return { ...result, json: fileJson(loaded) };
    return format === 'sarif'
      ? { ...result, sarif: sarifPart(loaded) }
      : { ...result, text: fileText(loaded) };
  } catch (error) {
    const usage = error instanceof UsageError;
    const why =
      error instanceof Error ? (usage ? error.message : (error.stack ?? error.message)) : String(error);
    return { path, severities: [], complete: false, failed: { usage, why } };
  }
}

function fileJson({ review, file }: Loaded): unknown {
  return {
    path: file.path,
    findings: review.findings.map(findingJson),
    silenced: review.silenced.map(silencedJson),
    not_checked: review.not_checked,
  };
}

function fileText({ review, file }: Loaded): string {
  const lines = review.findings.map(finding => findingLine(finding, file.path));
  return `${[...lines, `${file.path}: ${verdict(review)}`].join('\n')}\n`;
}
