import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  addCalled,
  addMissingTools,
  addTool,
  applyTextEdits,
  calledText,
  holdsSize,
  insideFolder,
  keyAt,
  newSheet,
  readCrib,
  readQuantity,
  readSetupSheet,
  readToolComment,
  recordEndings,
  setValue,
  sheetSpec,
  toolComments,
  toolsOf,
} from '../../../server/src/setup/index.ts';

const runs = { seed: 20240611, numRuns: 300 };

/** Text made of pieces that the readers look for, and of anything. */
const comment = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        'T1',
        'TOOL',
        ' ',
        '1/2',
        '"',
        'IN',
        'MM',
        '.5',
        '12',
        '-',
        'ENDMILL',
        'DRILL',
        'TAP',
        'M6',
        'X1',
        'D=',
        'CR=',
        'DIA',
        'FL',
        'R',
        '#7',
        'CNMG',
        '432',
        'DEG',
        'H1',
        'D1',
        '0/0',
        'FOR',
        '(',
        ';',
      ),
      fc.string({ unit: 'binary', maxLength: 6 }),
    ),
    { maxLength: 12 },
  )
  .map(parts => parts.join(''));

const sheetText = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '{',
        '}',
        '[',
        ']',
        ',',
        ':',
        '"tools"',
        '"1"',
        '"diameter"',
        '"1/2 in"',
        '"units"',
        '"mm"',
        '0.5',
        '-1',
        'null',
        'true',
        '// x\n',
        '/*',
        '"machine"',
        '"__proto__"',
        '"stock"',
        '"shape"',
        '"bar"',
      ),
      fc.string({ unit: 'binary', maxLength: 5 }),
    ),
    { maxLength: 40 },
  )
  .map(parts => parts.join(''));

const units = fc.constantFrom('inch' as const, 'mm' as const, undefined);

describe('setup: any bytes', () => {
  it('reads any comment without throwing, and only sizes that can be', () => {
    fc.assert(
      fc.property(comment, units, (text, unit) => {
        const { fields } = readToolComment(text, { units: unit });
        for (const value of Object.values(fields)) {
          if (typeof value === 'number')
            assert.ok(Number.isFinite(value) && value >= 0 && value < 1e6, `${value}`);
        }
        if (fields.diameter_mm !== undefined) assert.ok(fields.diameter_mm > 0 && fields.diameter_mm <= 400);
        if (fields.teeth !== undefined) assert.ok(Number.isInteger(fields.teeth) && fields.teeth >= 1);
      }),
      runs,
    );
  });
  it('reads lower case as upper case', () => {
    fc.assert(
      fc.property(comment, units, (text, unit) => {
        const ascii = text.replace(/[^ -~]/g, '');
        assert.deepEqual(
          readToolComment(ascii.toLowerCase(), { units: unit }),
          readToolComment(ascii.toUpperCase(), { units: unit }),
        );
      }),
      runs,
    );
  });
  it('gives every comment of a program to a tool of the program or to none', () => {
    const program = fc.record({
      comments: fc.array(fc.record({ line: fc.integer({ min: 1, max: 20 }), text: comment }), {
        maxLength: 10,
      }),
      changes: fc.array(
        fc.record({ line: fc.integer({ min: 1, max: 20 }), tool: fc.integer({ min: 1, max: 4 }) }),
        { maxLength: 5 },
      ),
    });
    fc.assert(
      fc.property(program, units, ({ comments, changes }, unit) => {
        const sorted = comments.sort((a, b) => a.line - b.line);
        const read = toolComments(sorted, changes, { units: unit });
        const tools = new Set(changes.map(({ tool }) => tool));
        for (const number of read.keys()) assert.ok(tools.has(number) || tools.size === 0, `${number}`);
        for (const [number, tool] of toolsOf({ tools: [...tools], comments: read })) {
          assert.equal(tool.number, number);
          assert.equal(tool.confirmed, false);
          for (const doubt of read.get(number)?.doubts ?? []) assert.equal(tool[doubt.about], undefined);
        }
      }),
      runs,
    );
  });
  it('reads any sheet and crib without throwing, problems inside the text', () => {
    fc.assert(
      fc.property(sheetText, text => {
        for (const { problems } of [readSetupSheet(text, 'x'), readCrib(text, 'x')]) {
          for (const { offset, length } of problems)
            assert.ok(offset >= 0 && length >= 0 && offset <= text.length);
        }
      }),
      runs,
    );
  });
  it('looks up any place of any text', () => {
    fc.assert(
      fc.property(sheetText, fc.nat(60), (text, offset) => {
        assert.ok(Array.isArray(keyAt(sheetSpec.shape, text, Math.min(offset, text.length)).keys));
      }),
      runs,
    );
  });
  it('edits any text into one that reads back, or says why not', () => {
    fc.assert(
      fc.property(sheetText, text => {
        const results = [
          setValue(text, ['coolant'], 'dry'),
          addTool(text, 7, { teeth: 3 }),
          addCalled(text, '1', 'T1 1/2 EM'),
        ];
        results.push(addMissingTools(text, { program: 'x.nc', tools: [{ number: 7 }] }));
        for (const result of results) {
          if ('why' in result) continue;
          const { problems } = readSetupSheet(applyTextEdits(text, result.edits), 'x');
          assert.deepEqual(
            problems.filter(({ code }) => code === 'setup-json'),
            [],
          );
        }
      }),
      runs,
    );
  });
  it('writes a new sheet that reads without a problem, whatever the comments say', () => {
    fc.assert(
      fc.property(fc.array(comment, { maxLength: 4 }), comment, units, (texts, program, unit) => {
        const changes = texts.map((_, index) => ({ line: 10 * index + 5, tool: index + 1 }));
        const said = texts.map((text, index) => ({ line: 10 * index + 5, text }));
        const read = toolComments(said, changes, { units: unit });
        const text = newSheet({
          program,
          tools: changes.map(({ tool }) => ({ number: tool, reading: read.get(tool) })),
        });
        const { sheet, problems } = readSetupSheet(text, 'x');
        assert.deepEqual(problems, [], text);
        for (const [number, { fields }] of read) {
          const back = sheet.tools?.get(number)?.diameter_mm?.value;
          if (fields.diameter_mm)
            assert.ok(back !== undefined && Math.abs(back - fields.diameter_mm.value) < 1e-6 * back);
        }
      }),
      runs,
    );
  });
  it('keeps paths inside the folder', () => {
    const path = fc
      .array(fc.constantFrom('..', '.', 'a', '/', '\\', 'b.jsonl', ':', '~', ' ', '.jsonl', 'nul'), {
        maxLength: 8,
      })
      .map(parts => parts.join(''));
    fc.assert(
      fc.property(path, text => {
        const verdict = insideFolder(text, recordEndings);
        if ('why' in verdict) return;
        assert.match(verdict.path, /^[^/\\:~][^/\\:]*(\/[^/\\:~][^/\\:]*)*$/);
        assert.ok(!verdict.path.split('/').includes('..') && verdict.path.endsWith('.jsonl'));
      }),
      runs,
    );
  });
  it('reads a written fraction as its value', () => {
    fc.assert(
      fc.property(
        fc.nat(9),
        fc.integer({ min: 1, max: 63 }),
        fc.constantFrom(2, 4, 8, 16, 32, 64),
        (whole, above, below) => {
          const written = whole > 0 ? `${whole}-${above}/${below} in` : `${above}/${below} in`;
          const reading = readQuantity('length', written, 'mm');
          assert.ok('value' in reading && Math.abs(reading.value / 25.4 - (whole + above / below)) < 1e-9);
        },
      ),
      runs,
    );
  });
  it('cleans any text for the crib', () => {
    fc.assert(
      fc.property(comment, text => {
        const once = calledText(text);
        assert.ok(once.length <= 200);
        assert.equal(typeof holdsSize(once), 'boolean');
      }),
      runs,
    );
  });
});
