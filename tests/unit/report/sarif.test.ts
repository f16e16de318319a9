import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import { sarifLog, sarifPart, uriOf } from '../../../server/src/report/sarif.ts';
import type { Review } from '../../../server/src/review/review.ts';
import { rules } from '../../../server/src/review/rules/index.ts';
import { FILE, fixtureReview, JOBS, reviewOf } from './jobs.ts';

/** The schema as published (2.1.0, release text 5), out of a package that ships it. */
const schema = JSON.parse(
  readFileSync(
    createRequire(import.meta.url).resolve('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json'),
    'utf8',
  ),
);
const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
addFormats(ajv, ['uri', 'uri-reference', 'date-time']);
const validate = ajv.compile<Log>(schema);

interface Region {
  startLine: number;
  startColumn: number;
  endLine: number;
  endColumn: number;
}
interface Log {
  runs: [
    {
      columnKind: string;
      tool: { driver: { rules: { id: string }[] } };
      results: {
        ruleId: string;
        ruleIndex?: number;
        level: string;
        locations: [{ physicalLocation: { artifactLocation: { uri: string }; region: Region } }];
        fixes?: {
          artifactChanges: [{ replacements: { deletedRegion: Region; insertedContent: { text: string } }[] }];
        }[];
        suppressions?: { kind: string; justification: string }[];
      }[];
      invocations: [
        { executionSuccessful: boolean; toolExecutionNotifications: { message: { text: string } }[] },
      ];
    },
  ];
}

function logOf(review: Review, path = FILE.path): Log {
  const log = JSON.parse(JSON.stringify(sarifLog([sarifPart({ review, file: { ...FILE, path } })], '0.1.0')));
  assert.ok(validate(log), JSON.stringify(validate.errors?.slice(0, 5), null, 1));
  return log;
}

const MIXED = [
  'G20 G17 G90 G94',
  '(OK surface-speed-low: proven on this job)',
  'T1 M6 (1/2 \u{1f600} END MILL 3 FLUTE)',
  'S8000 M3',
  'G0 X0 Y0 Z.1',
  '(\u{1f600}\u{1f600}) G1 X4. F15.',
  'G44.9 X1',
].join('\n');
const SHEET = `{ "units": "inch", "workpiece": { "material": "6061-T6" }, "colour": 1, "tools": {
  "1": { "kind": "end-mill", "diameter": 0.5, "teeth": 3, "substrate": "carbide" } },
  "silence": [{ "code": "code-unknown", "reason": "the builder's code" }] }`;

describe('SARIF', () => {
  it('has a schema that refuses what is no log', () => {
    assert.equal(validate({ version: '2.1.0' }), false);
    assert.equal(validate({ version: '2.1.0', runs: [{ tool: {} }] }), false);
  });

  for (const name of JOBS)
    it(`of ${name} is valid and holds each finding`, () => {
      const review = fixtureReview(name);
      const { results } = logOf(review).runs[0];
      assert.equal(results.length, review.findings.length + review.silenced.length);
    });

  it('is valid for several files, none, and odd paths', () => {
    const part = sarifPart({ review: reviewOf(MIXED, SHEET), file: { ...FILE, path: 'a b/<ü>\ud800%.nc' } });
    const other = sarifPart({ review: reviewOf('G1'), file: { ...FILE, path: 'other.nc' } });
    for (const parts of [[], [part], [part, part], [part, other]])
      assert.ok(validate(sarifLog(parts, '0.1.0')), JSON.stringify(validate.errors));
  });

  it('lists the rules by the rule table, and each result points at its own', () => {
    const { tool, results } = logOf(reviewOf(MIXED, SHEET)).runs[0];
    const ids = tool.driver.rules.map(rule => rule.id);
    assert.equal(new Set(ids).size, ids.length);
    for (const { code } of rules) assert.ok(ids.includes(code), code);
    assert.ok(results.length > 0);
    for (const { ruleId, ruleIndex } of results) assert.equal(ids[ruleIndex ?? -1], ruleId);
  });

  it('counts columns in UTF-16 units and carries fixes that make the wanted text', () => {
    const { columnKind, results } = logOf(reviewOf(MIXED, SHEET)).runs[0];
    assert.equal(columnKind, 'utf16CodeUnits');
    const low = results.find(({ ruleId }) => ruleId === 'chip-load-low');
    assert.ok(low);
    const { region } = low.locations[0].physicalLocation;
    const lines = MIXED.split('\n');
    assert.equal(lines[region.startLine - 1].slice(region.startColumn - 1, region.endColumn - 1), 'F15.');
    const { deletedRegion, insertedContent } = low.fixes![0].artifactChanges[0].replacements[0];
    const line = lines[deletedRegion.startLine - 1];
    const fixed = `${line.slice(0, deletedRegion.startColumn - 1)}${insertedContent.text}${line.slice(deletedRegion.endColumn - 1)}`;
    assert.match(fixed, /^\(\u{1f600}\u{1f600}\) G1 X4\. F\d+\.?\d*$/u);
    assert.ok(Number(/F([\d.]+)$/.exec(fixed)?.[1]) > 15);
  });

  it('says what was silenced, where, and what was not checked', () => {
    const review = reviewOf(MIXED, SHEET);
    const { results, invocations } = logOf(review).runs[0];
    const silenced = results.filter(({ suppressions }) => suppressions);
    assert.deepEqual(
      silenced.map(({ ruleId, suppressions }) => [
        ruleId,
        suppressions?.[0].kind,
        suppressions?.[0].justification,
      ]),
      review.silenced.map(({ code, reason }) => [
        code,
        code === 'code-unknown' ? 'external' : 'inSource',
        reason,
      ]),
    );
    assert.ok(silenced.some(({ ruleId }) => ruleId === 'code-unknown'));
    const notes = invocations[0].toolExecutionNotifications.map(({ message }) => message.text);
    assert.deepEqual(
      notes,
      review.not_checked.map(why => `Not checked: ${why}`),
    );
  });

  it('puts a problem of the sheet into the sheet', () => {
    const { results } = logOf(reviewOf(MIXED, SHEET)).runs[0];
    const key = results.find(({ ruleId }) => ruleId === 'setup-key-unknown');
    assert.equal(key?.locations[0].physicalLocation.artifactLocation.uri, 'job.setup.json');
  });

  const levels: [severity: string, level: string][] = [
    ['error', 'error'],
    ['warning', 'warning'],
    ['information', 'note'],
  ];
  for (const [severity, level] of levels)
    it(`writes ${severity} as ${level}`, () => {
      const { program, tools, findings, not_checked, assumed, complete } = reviewOf(MIXED, SHEET);
      const given = severity as 'error';
      const changed: Review = {
        ...{ program, tools, not_checked, assumed, complete },
        findings: findings.map(f => ({ ...f, severity: given })),
        silenced: [],
      };
      for (const result of logOf(changed).runs[0].results) assert.equal(result.level, level);
    });

  const uris: [path: string, uri: string][] = [
    ['bracket.nc', 'bracket.nc'],
    ['jobs/op 10/a#1.nc', 'jobs/op%2010/a%231.nc'],
    ['jobs\\op10\\a.nc', 'jobs/op10/a.nc'],
    ['/srv/jobs/a.nc', 'file:///srv/jobs/a.nc'],
    ['C:\\jobs\\a b.nc', 'file:///C:/jobs/a%20b.nc'],
    ['-', 'standard-input'],
  ];
  for (const [path, uri] of uris) it(`names ${path} as ${uri}`, () => assert.equal(uriOf(path), uri));
});
