import type { Finding, Fix, Place, Severity, SilencedFinding } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import { type FindingCode, findingCodes } from './finding-codes.ts';
import type { FileFacts } from './json.ts';

type Json = Record<string, unknown>;

/** Name of the published schema, for readers that look at it; nothing is fetched. */
const SCHEMA_NAME =
  'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';

const LEVELS: Record<Severity, string> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

export interface SarifFile {
  review: Review;
  file: FileFacts;
}

/** What one program adds to a log; the review itself need not be kept for it. */
export interface SarifPart {
  artifact: Json;
  notifications: Json[];
  results: Json[];
  complete: boolean;
}

const INDEX = new Map(findingCodes.map((row, index) => [row.code, index]));

/** Findings of one program, silenced ones as suppressed results. */
export function sarifPart(each: SarifFile): SarifPart {
  const { review, file } = each;
  return {
    artifact: {
      location: { uri: uriOf(file.path) },
      length: file.bytes,
      hashes: { 'sha-256': file.sha256 },
      sourceLanguage: 'rs274',
    },
    notifications: notifications(each),
    results: [
      ...review.findings.map(finding => result(finding, file)),
      ...review.silenced.map(finding => suppressed(finding, each)),
    ],
    complete: review.complete,
  };
}

/** A SARIF 2.1.0 log of one or more programs: one run, rules from the rule table, columns in UTF-16 units. */
export function sarifLog(parts: readonly SarifPart[], version: string): Json {
  return {
    $schema: SCHEMA_NAME,
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Tapeproof', version, rules: findingCodes.map(descriptor) } },
        columnKind: 'utf16CodeUnits',
        artifacts: unique(parts.map(part => part.artifact)),
        invocations: [
          {
            executionSuccessful: parts.every(part => part.complete),
            toolExecutionNotifications: parts.flatMap(part => part.notifications),
          },
        ],
        results: parts.flatMap(part => part.results),
      },
    ],
  };
}

function descriptor(row: FindingCode): Json {
  return {
    id: row.code,
    shortDescription: { text: row.title },
    fullDescription: { text: row.means },
    help: { text: `${row.cure} Fine when: ${row.fine_when}` },
    defaultConfiguration: { level: LEVELS[row.severity] },
    properties: { source: row.source, severity: row.severity },
  };
}

function notifications({ review, file }: SarifFile): Json[] {
  const at = [{ physicalLocation: { artifactLocation: { uri: uriOf(file.path) } } }];
  const gaps = review.not_checked.map(why => ({
    level: 'note',
    message: { text: `Not checked: ${why}` },
    locations: at,
  }));
  const bound = {
    level: 'warning',
    message: { text: 'The review is incomplete: a bound was reached before the program ended.' },
    locations: at,
  };
  return review.complete ? gaps : [bound, ...gaps];
}

function result(finding: Finding, file: FileFacts): Json {
  const index = INDEX.get(finding.code);
  const path = finding.file ?? file.path;
  return {
    ruleId: finding.code,
    ...(index === undefined ? {} : { ruleIndex: index }),
    level: LEVELS[finding.severity],
    message: { text: finding.message },
    locations: [{ physicalLocation: { artifactLocation: { uri: uriOf(path) }, region: region(finding) } }],
    ...(finding.related?.length
      ? {
          relatedLocations: finding.related.map((place, id) => ({
            id,
            message: { text: place.message },
            physicalLocation: {
              artifactLocation: { uri: uriOf(path) },
              region: { startLine: place.line + 1 },
            },
          })),
        }
      : {}),
    ...(finding.fixes?.length ? { fixes: unique(finding.fixes.map(fix => fixOf(fix, path))) } : {}),
    properties: {
      severity: finding.severity,
      ...(finding.tool === undefined ? {} : { tool: finding.tool }),
      ...(finding.source === undefined ? {} : { source: finding.source }),
    },
  };
}

function suppressed(finding: SilencedFinding, { review, file }: SarifFile): Json {
  const sheet = review.program.sheet?.silence ?? [];
  const bySheet = sheet.some(({ code, reason }) => code === finding.code && reason === finding.reason);
  return {
    ...result(finding, file),
    suppressions: [
      { kind: bySheet ? 'external' : 'inSource', status: 'accepted', justification: finding.reason },
    ],
  };
}

function fixOf(fix: Fix, path: string): Json {
  return {
    description: { text: fix.title },
    artifactChanges: [
      {
        artifactLocation: { uri: uriOf(fix.file ?? path) },
        replacements: fix.edits.map(edit => ({
          deletedRegion: region(edit),
          insertedContent: { text: edit.text },
        })),
      },
    ],
  };
}

function region(place: Place): Json {
  return {
    startLine: place.line + 1,
    startColumn: place.column + 1,
    endLine: place.end_line + 1,
    endColumn: place.end_column + 1,
  };
}

/** Each item once; the schema allows no two alike. */
function unique(items: readonly Json[]): Json[] {
  return [...new Map(items.map(item => [JSON.stringify(item), item])).values()];
}

/** A path as a URI reference: relative stays relative, absolute becomes a file URI, each part escaped. */
export function uriOf(path: string): string {
  if (path === '-') return 'standard-input';
  const parts = path.replaceAll('\\', '/').split('/');
  const escaped = parts.map(escapePart).join('/');
  if (/^[A-Za-z]:$/.test(parts[0])) return `file:///${parts[0]}/${parts.slice(1).map(escapePart).join('/')}`;
  return path.startsWith('/') ? `file://${escaped}` : escaped;
}

/** Halves of pairs have no URI form and become a mark. */
function escapePart(part: string): string {
  return encodeURIComponent(
    part.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd'),
  );
}
