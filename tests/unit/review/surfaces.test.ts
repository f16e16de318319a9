import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { openJob } from '../../../server/src/job/open-job.ts';
import { hintLines } from '../../../server/src/lsp/hint-lines.ts';
import { factsJson, reviewJson } from '../../../server/src/report/json.ts';
import { reviewText as writeText } from '../../../server/src/report/text.ts';
import type { Review } from '../../../server/src/review/review.ts';
import { ProgramText } from '../../../server/src/rs274/index.ts';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../../fixtures');

function fixtures(): { name: string; program: string; sheet: string | undefined }[] {
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter(name => /\.(nc|ngc)$/.test(name))
    .sort()
    .map(name => {
      const sheet = path.join(root, name.replace(/\.\w+$/, '.setup.json'));
      return {
        name,
        program: readFileSync(path.join(root, name), 'latin1'),
        sheet: readdirSync(path.dirname(sheet)).includes(path.basename(sheet))
          ? readFileSync(sheet, 'utf8')
          : undefined,
      };
    });
}

function review(program: string, sheet?: string): Review {
  return openJob({
    bytes: new TextEncoder().encode(program),
    name: 'job.nc',
    files: sheet ? { sheet: { path: 'job.setup.json', text: sheet } } : {},
  }).review;
}

/** Quantities that no one can know without the tool or the material. */
const NEEDS_TOOL = [
  'chip_load_mm',
  'surface_speed_m_min',
  'chip_thickness_mm',
  'removal_cm3_min',
  'force_n',
  'torque_nm',
  'power_kw',
  'deflection_mm',
  'roughness_um',
  'axial_depth_mm',
  'radial_width_mm',
  'engagement_deg',
];

describe('surfaces', () => {
  it('has fixtures of both kinds to look at', () => {
    assert.ok(fixtures().length >= 3);
  });

  for (const { name, program, sheet } of fixtures()) {
    it(`hints of ${name} show the numbers of its facts`, () => {
      const made = review(program, sheet);
      const inch = made.program.shown === 'inch';
      let compared = 0;
      for (const hint of hintLines(made, 'every', 0, made.program.lineCount)) {
        const facts = factsJson(made, hint.line) as Record<string, number | number[]> | undefined;
        const chip = /(\d[\d.]*) (?:in|mm)\/tooth/.exec(hint.text);
        if (!chip || typeof facts?.chip_load_mm !== 'number') continue;
        const exact = inch ? facts.chip_load_mm / 25.4 : facts.chip_load_mm;
        const digits = chip[1].split('.')[1]?.length ?? 0;
        assert.ok(
          Math.abs(Number(chip[1]) - exact) <= 0.5000001 * 10 ** -digits,
          `line ${hint.line + 1}: ${hint.text} against ${exact}`,
        );
        compared++;
      }
      if (
        made.program.kind === 'mill' &&
        made.tools.some(tool => tool.main?.chip_load_mm && tool.tool?.kind?.value === 'end-mill')
      )
        assert.ok(compared > 0, 'nothing was compared');
    });

    it(`shows nothing of ${name} that needs a tool when neither sheet nor comment names one`, () => {
      const bare = program.replace(/\([^)]*\)|;.*$/gm, '');
      const made = review(bare);
      if (made.program.kind === 'lathe') return assertLathe(made);
      for (let line = 0; line < made.program.lineCount; line++) {
        const facts = factsJson(made, line) ?? {};
        for (const key of NEEDS_TOOL) assert.equal(facts[key], undefined, `${key} on line ${line + 1}`);
      }
      for (const hint of hintLines(made, 'every', 0, made.program.lineCount))
        assert.doesNotMatch(hint.text, /tooth|sfm|m\/min/, hint.text);
      const json = JSON.stringify(reviewJson(made, { path: 'x', sha256: '', bytes: 0, version: '0' }));
      assert.doesNotMatch(json, /"window"|"chip_load_mm"|"surface_speed_m_min"/);
      assert.doesNotMatch(writeText(made, { path: 'x' }), /\/tooth| sfm| m\/min/);
    });
  }

  /** On a lathe the work's own diameter gives surface speed; chip load needs the tool. */
  function assertLathe(made: Review): void {
    for (let line = 0; line < made.program.lineCount; line++) {
      const facts = factsJson(made, line) ?? {};
      for (const key of NEEDS_TOOL)
        if (key !== 'surface_speed_m_min') assert.equal(facts[key], undefined, key);
    }
  }

  it('holds a finishing program in columns: at most 60 bytes a line of 28 characters', () => {
    const lines = ['G21 G90 G94 F1500', 'T1 M6', 'S12000 M3', 'G0 X0 Y0 Z5', 'G1 Z0'];
    for (let i = 0; i < 50_000; i++)
      lines.push(`X${(i * 0.013).toFixed(3)} Y${(i % 97).toFixed(3)} Z-${(i % 7).toFixed(3)}`);
    const made = review(lines.join('\n'));
    let bytes = 0;
    for (const { steps } of made.program.reading.stretches)
      for (const column of Object.values(steps)) if (ArrayBuffer.isView(column)) bytes += column.byteLength;
    assert.ok(bytes / lines.length <= 60, `${(bytes / lines.length).toFixed(1)} bytes a line`);
    assert.ok(bytes > 0);
  });

  it('keeps the text of a program once', () => {
    const text = ProgramText.fromString('G0 X1\n'.repeat(1000));
    assert.equal(
      text.chunks.reduce((sum, chunk) => sum + chunk.bytes.length, 0),
      6000,
    );
  });
});
