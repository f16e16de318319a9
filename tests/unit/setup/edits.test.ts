import assert from 'node:assert/strict';
import {
  addCalled,
  addMissingTools,
  addStanding,
  addTool,
  applyTextEdits,
  type EditResult,
  newSheet,
  type ProgramFacts,
  readCrib,
  readSetupSheet,
  setValue,
  toolComments,
} from '../../../server/src/setup/index.ts';

function edited(text: string, result: EditResult): string {
  return 'why' in result ? `why: ${result.why}` : applyTextEdits(text, result.edits);
}

const sheet = `{
  // the flange
  "units": "inch",
  "tools": {
    "1": { "diameter": 0.5 }, // the good one
  },
}
`;

describe('setup: edits of a sheet', () => {
  it('sets a value and leaves the rest, comments too', () => {
    assert.equal(
      edited(sheet, setValue(sheet, ['tools', '1', 'teeth'], 3)),
      sheet.replace('{ "diameter": 0.5 }', '{\n      "diameter": 0.5,\n      "teeth": 3\n    }'),
    );
    assert.equal(
      edited(sheet, setValue(sheet, ['tools', '1', 'diameter'], '1/2 in')),
      sheet.replace('0.5', '"1/2 in"'),
    );
  });
  it('makes what is missing above', () => {
    const text = edited(sheet, setValue(sheet, ['workpiece', 'material'], '6061-T6'));
    const { sheet: read, problems } = readSetupSheet(text, 'x');
    assert.deepEqual(problems, []);
    assert.equal(read.workpiece?.material?.value, '6061-T6');
    assert.ok(text.includes('// the good one') && text.includes('// the flange'));
  });
  it('makes a file of an empty text', () => {
    assert.equal(edited('', setValue('', ['coolant'], 'dry')), '{\n  "coolant": "dry"\n}\n');
  });
  it('adds a tool, or only its missing keys', () => {
    const text = edited(sheet, addTool(sheet, 2, { kind: 'drill', diameter: 0.201 }));
    assert.equal(readSetupSheet(text, 'x').sheet.tools?.get(2)?.kind?.value, 'drill');
    const more = edited(sheet, addTool(sheet, 1, { diameter: 9, teeth: 3 }));
    const tool = readSetupSheet(more, 'x').sheet.tools?.get(1);
    assert.deepEqual([tool?.diameter_mm?.value, tool?.teeth?.value], [12.7, 3]);
    assert.ok(more.includes('// the good one'));
    assert.equal(edited(sheet, addTool(sheet, 1, { diameter: 9 })), sheet);
  });
  it('keeps tabs and CR LF', () => {
    const tabs = '{\r\n\t"units": "mm"\r\n}\r\n';
    assert.equal(
      edited(tabs, setValue(tabs, ['coolant'], 'dry')),
      '{\r\n\t"units": "mm",\r\n\t"coolant": "dry"\r\n}\r\n',
    );
  });
  it('refuses what it would break', () => {
    assert.match(
      edited('{ "units": ', setValue('{ "units": ', ['coolant'], 'dry')),
      /^why: the file is not JSON/,
    );
    assert.match(edited('[1]', setValue('[1]', ['coolant'], 'dry')), /^why: the file is not an object/);
    assert.match(
      edited('{"tools":3}', setValue('{"tools":3}', ['tools', '1'], {})),
      /^why: "tools" is not an object/,
    );
    assert.match(
      edited('{"tools":{"1":3}}', addTool('{"tools":{"1":3}}', 1, {})),
      /^why: tool 1 is not an object/,
    );
  });
});

const crib = `{
  "machines": { "mill-3": { "kind": "mill" } },
  "tools": {
    "em-12": { "kind": "end-mill", "called": ["1/2 3FL EM"] }, // drawer 4
    "em-10": { "kind": "end-mill" },
  },
}
`;

describe('setup: edits of a crib', () => {
  it('adds what comments call a tool', () => {
    const text = edited(crib, addCalled(crib, 'em-12', 'T7 1/2" 3FL ENDMILL H7'));
    assert.deepEqual(
      readCrib(text, 'x')
        .crib.tools?.get('em-12')
        ?.called?.map(each => each.text),
      ['1/2 3FL EM', '1/2" 3FL ENDMILL'],
    );
    assert.ok(text.includes('// drawer 4'));
    const first = edited(crib, addCalled(crib, 'em-10', '10MM ENDMILL'));
    assert.deepEqual(
      readCrib(first, 'x')
        .crib.tools?.get('em-10')
        ?.called?.map(each => each.text),
      ['10MM ENDMILL'],
    );
  });
  it('does not add it twice, nor one without a size, nor to a tool that is not there', () => {
    assert.equal(edited(crib, addCalled(crib, 'em-12', 'T9 1/2 3fl em')), crib);
    assert.match(edited(crib, addCalled(crib, 'em-12', 'ROUGHER')), /holds no size/);
    assert.match(edited(crib, addCalled(crib, 'em-99', '1/2 EM')), /no tool "em-99"/);
  });
  it('adds a standing tool', () => {
    const text = edited(crib, addStanding(crib, 'mill-3', 4, 'em-12'));
    assert.equal(readCrib(text, 'x').crib.machines?.get('mill-3')?.standing?.get(4)?.id, 'em-12');
    assert.match(edited(crib, addStanding(crib, 'mill-9', 4, 'em-12')), /no machine "mill-9"/);
    assert.match(edited(crib, addStanding(crib, 'mill-3', 4, 'em-99')), /no tool "em-99"/);
  });
});

describe('setup: a new sheet', () => {
  const changes = [
    { line: 6, tool: 1 },
    { line: 9, tool: 2 },
    { line: 12, tool: 3 },
  ];
  const read = toolComments(
    [
      { line: 1, text: 'T1 1/2 3FL ENDMILL' },
      { line: 2, text: 'T2 375_DRILL' },
      { line: 3, text: 'T1 \u0007 1/2 ENDMILL' },
    ],
    changes,
    { units: 'inch', machine: 'mill' },
  );
  const facts: ProgramFacts = {
    program: 'flange.nc',
    units: { value: 'inch', origin: { from: 'program', where: 'G20 on line 4' } },
    kind: { value: 'mill', origin: { from: 'settled', where: 'M6 tool changes' } },
    tools: [1, 2, 3].map(number => ({ number, reading: read.get(number) })),
  };
  it('is filled with what the program says, each value marked', () => {
    assert.equal(
      newSheet(facts),
      `// Setup sheet of flange.nc. Everything is optional.
// Values with "read" behind them were read from the program: check them.
{
  "units": "inch", // read: G20 on line 4
  "machine": {
    "kind": "mill", // read: M6 tool changes
  },
  // "workpiece": { "material": "" },
  // "workholding": { "grip": "firm" },
  "tools": {
    "1": {
      "kind": "end-mill", // read on line 1: T1 1/2 3FL ENDMILL
      "diameter": 0.5, // read on line 1: T1 1/2 3FL ENDMILL
      "teeth": 3, // read on line 1: T1 1/2 3FL ENDMILL
    },
    "2": {
      "kind": "drill", // read on line 2: T2 375_DRILL
      // line 2: "375" may be 375 mm, 375 in or no size
      // "teeth": not said by the program
    },
    "3": {
      // "teeth": not said by the program
    },
  },
}
`,
    );
  });
  it('reads back without a problem, with the same values', () => {
    const { sheet: back, problems } = readSetupSheet(newSheet(facts), 'flange.setup.json');
    assert.deepEqual(problems, []);
    assert.equal(back.tools?.get(1)?.diameter_mm?.value, 12.7);
    assert.equal(back.tools?.get(1)?.teeth?.value, 3);
  });
  it('names the unit of each length when the program states none', () => {
    const text = newSheet({ ...facts, units: undefined });
    assert.ok(text.includes('"diameter": "12.7 mm"'));
    assert.deepEqual(readSetupSheet(text, 'x').problems, []);
  });
  it('lets no program text out of its comment', () => {
    const text = newSheet({ program: 'a\n"units": "mm"', tools: [] });
    assert.deepEqual(readSetupSheet(text, 'x').sheet.units, undefined);
  });
  it('adds only the missing tools to a sheet that is there', () => {
    const text = edited(sheet, addMissingTools(sheet, facts));
    const { sheet: back, problems } = readSetupSheet(text, 'x');
    assert.deepEqual(problems, []);
    assert.deepEqual([...(back.tools?.keys() ?? [])], [1, 2, 3]);
    assert.equal(back.tools?.get(1)?.teeth, undefined);
    assert.ok(text.includes('// the good one') && text.includes('read on line 2: T2 375_DRILL'));
    assert.equal(edited(text, addMissingTools(text, facts)), text);
  });

  const places: [name: string, before: string, after: string][] = [
    [
      'behind the last tool and its comment',
      '{\n  "tools": {\n    "1": { "teeth": 4 } // proven\n  }\n}\n',
      '{\n  "tools": {\n    "1": { "teeth": 4 }, // proven\n    "2": TOOL\n  }\n}\n',
    ],
    [
      'behind a comma that ends the list',
      '{\n  "tools": {\n    "1": {}, // proven\n    // end\n  },\n}\n',
      '{\n  "tools": {\n    "1": {}, // proven\n    // end\n    "2": TOOL,\n  },\n}\n',
    ],
    [
      'with tabs and the line ends of the file',
      '{\r\n\t"tools": {\r\n\t\t"1": {} // x\r\n\t}\r\n}',
      '{\r\n\t"tools": {\r\n\t\t"1": {}, // x\r\n\t\t"2": TOOL\r\n\t}\r\n}',
    ],
    ['into a list on one line', '{ "tools": { "1": {} } }', '{ "tools": { "1": {},\n  "2": TOOL\n } }'],
  ];
  for (const [name, before, after] of places)
    it(`puts a missing tool ${name}, and changes no other character`, () => {
      const text = edited(before, addMissingTools(before, { program: 'x.nc', tools: [{ number: 2 }] }));
      assert.equal(text.replace(/("2": )\{[^{}]*\}/, '$1TOOL'), after);
    });
});
