import assert from 'node:assert/strict';
import { readCrib, readSetupSheet } from '../../../server/src/setup/index.ts';

/** Problems as `code@the text they stand on`. */
function problemsOf(text: string, kind: 'sheet' | 'crib' = 'sheet'): string[] {
  const { problems } =
    kind === 'sheet' ? readSetupSheet(text, 'flange.setup.json') : readCrib(text, 'crib.json');
  return problems.map(({ code, offset, length }) => `${code}@${text.slice(offset, offset + length)}`);
}

const full = `{
  // the flange, first side
  "units": "inch",
  "machine": { "kind": "mill", "dialect": "ngc", "spindle": { "max_rpm": 10000, "power_kw": [[0, 2], [1500, 11], [10000, 11]], "torque_nm": 70 },
    "max_feed": 400, "rapid": { "x": 1000, "y": 1000, "z": "15 m/min" }, "acceleration_m_s2": 3, "travel": { "x": [0, 30] },
    "least_increment": 0.0001, "compensation": "wear-only", "offset_rule": ["H=T", "D=T+20"], "override_step": 10 },
  "workpiece": { "material": "6061-T6", "hardness": "95 HB", "finish_ra": "0.8 um", "heat_treat_after": true,
    "stock": { "shape": "block", "size": [4, 2, "25.4 mm"], "zero": [0, 0, 1] } },
  "workholding": { "grip": "firm", "note": "vise", "overhang": 0.75, "force_n": 15000, "max_rpm": 4000 },
  "coolant": "flood",
  "tools": {
    "1": { "kind": "end-mill", "diameter": "1/2 in", "teeth": 3, "stickout": 1.5, "maker": { "surface_speed": [800, 1200], "chip_load": [0.002, 0.004], "source": "page 112" } },
    "7": { "kind": "tap", "pitch": "1/4-20", "lead_angle_deg": 45, },
  },
  "setups": { "G54": { "zero": [0, 0, 1], "keep_out": [{ "what": "vise jaw", "box": [[4, 2, 0], [0, 0, -1]] }] }, "G55": { "same_as": "G54" } },
  "quote": { "time": "8 min", "parts": 25, "rate_per_hour": 85, "currency": "USD" },
  "silence": [{ "code": "chip-load-low", "tool": 1, "reason": "proven on the last job" }],
}`;

describe('setup: reading a sheet', () => {
  const { sheet, problems } = readSetupSheet(full, 'flange.setup.json');
  it('reads every section without a problem', () => assert.deepEqual(problems, []));
  it('turns everything into mm, m/min and mm/min', () => {
    const tool = sheet.tools?.get(1);
    assert.equal(tool?.diameter_mm?.value, 12.7);
    assert.equal(tool?.stickout_mm?.value, 38.1);
    assert.deepEqual(tool?.maker?.surface_speed_m_min?.value, [243.84, 365.76]);
    assert.deepEqual(tool?.maker?.chip_load_mm?.value, [0.0508, 0.1016]);
    assert.equal(sheet.tools?.get(7)?.pitch_mm?.value, 1.27);
    assert.equal(sheet.workholding?.overhang_mm?.value, 19.05);
    assert.equal(sheet.quote?.time_s?.value, 480);
    assert.equal(sheet.workpiece?.finish_ra_um?.value, 0.8);
    const machine = sheet.machine && 'here' in sheet.machine ? sheet.machine.here : undefined;
    assert.equal(machine?.max_feed_mm_min?.value, 10160);
    assert.deepEqual(
      machine?.rapid_mm_min?.value,
      new Map([
        ['x', 25400],
        ['y', 25400],
        ['z', 15000],
      ]),
    );
    assert.deepEqual(machine?.offset_rules?.value, [
      { letter: 'H', is: 'tool-plus', number: 0 },
      { letter: 'D', is: 'tool-plus', number: 20 },
    ]);
    assert.deepEqual(machine?.spindle?.power_kw?.value, [
      [0, 2],
      [1500, 11],
      [10000, 11],
    ]);
    assert.deepEqual(machine?.spindle?.torque_nm?.value, [[0, 70]]);
  });
  it('turns a lead angle into the edge angle', () =>
    assert.equal(sheet.tools?.get(7)?.edge_angle_deg?.value, 45));
  it('reads the stock, setups and keep-outs', () => {
    const { stock } = sheet.workpiece ?? {};
    assert.equal(stock?.shape, 'block');
    assert.deepEqual(stock?.shape === 'block' ? stock.size_mm.value : undefined, [101.6, 50.8, 25.4]);
    const first = sheet.setups?.get('G54');
    assert.deepEqual(first?.keep_out?.[0]?.low_mm, [0, 0, -25.4]);
    assert.deepEqual(first?.keep_out?.[0]?.high_mm, [101.6, 50.8, 0]);
    assert.equal(sheet.setups?.get('G55')?.same_as?.value, 'G54');
  });
  it('knows the place of each value', () => {
    const origin = sheet.tools?.get(1)?.diameter_mm?.origin;
    assert.equal(full.slice(origin?.offset, (origin?.offset ?? 0) + (origin?.length ?? 0)), '"1/2 in"');
    assert.deepEqual(
      { from: origin?.from, file: origin?.file, line: origin?.line, key: origin?.key },
      { from: 'setup', file: 'flange.setup.json', line: 12, key: 'tools.1.diameter' },
    );
  });
});

// The text, then what is reported, as code@place.
const wrong: [title: string, text: string, problems: string[]][] = [
  ['unknown key', '{ "unit": "mm" }', ['setup-key-unknown@"unit"']],
  [
    'unknown key of a tool',
    '{ "units": "mm", "tools": { "1": { "diamter": 5, "teeth": 2 } } }',
    ['setup-key-unknown@"diamter"'],
  ],
  ['wrong type', '{ "tools": { "1": { "teeth": "three" } } }', ['setup-type@"three"']],
  ['teeth not whole', '{ "tools": { "1": { "teeth": 2.5 } } }', ['setup-range@2.5']],
  ['teeth none', '{ "tools": { "1": { "teeth": 0 } } }', ['setup-range@0']],
  ['negative diameter', '{ "units": "mm", "tools": { "1": { "diameter": -5 } } }', ['setup-range@-5']],
  ['huge number', '{ "units": "mm", "tools": { "1": { "diameter": 1e400 } } }', ['setup-range@1e400']],
  ['bare length, no units', '{ "tools": { "1": { "diameter": 0.5 } } }', ['setup-units-missing@0.5']],
  ['unknown unit', '{ "tools": { "1": { "diameter": "5 furlongs" } } }', ['setup-unit@"5 furlongs"']],
  ['unknown kind', '{ "tools": { "1": { "kind": "endmill" } } }', ['setup-value@"endmill"']],
  [
    'both angles',
    '{ "tools": { "1": { "edge_angle_deg": 45, "lead_angle_deg": 45 } } }',
    ['setup-conflict@45'],
  ],
  ['edge angle of nothing', '{ "tools": { "1": { "edge_angle_deg": 0 } } }', ['setup-range@0']],
  ['lead angle too large', '{ "tools": { "1": { "lead_angle_deg": 86 } } }', ['setup-range@86']],
  ['tool number that is none', '{ "tools": { "T1": { "teeth": 2 } } }', ['setup-value@"T1"']],
  [
    'range the wrong way',
    '{ "units": "mm", "tools": { "1": { "maker": { "chip_load": [0.2, 0.1] } } } }',
    ['setup-range@[0.2, 0.1]'],
  ],
  [
    'list of the wrong length',
    '{ "units": "mm", "workpiece": { "stock": { "shape": "block", "size": [1, 2] } } }',
    ['setup-range@[1, 2]'],
  ],
  [
    'key of the other shape',
    '{ "units": "mm", "workpiece": { "stock": { "shape": "bar", "diameter": 40, "size": [1, 2, 3] } } }',
    ['setup-key-unknown@[1, 2, 3]'],
  ],
  [
    'bore wider than the bar',
    '{ "units": "mm", "workpiece": { "stock": { "shape": "bar", "diameter": 40, "bore": 41 } } }',
    ['setup-range@41'],
  ],
  [
    'stock from outside the folder',
    '{ "workpiece": { "stock": { "from": "../op10.nc" } } }',
    ['setup-path@"../op10.nc"'],
  ],
  [
    'stock from a file that is no program',
    '{ "workpiece": { "stock": { "from": "op10.exe" } } }',
    ['setup-path@"op10.exe"'],
  ],
  ['same_as itself', '{ "setups": { "G54": { "same_as": "G54" } } }', ['setup-reference@"G54"']],
  ['same_as nothing', '{ "setups": { "G54": { "same_as": "G57" } } }', ['setup-reference@"G57"']],
  [
    'silence without a reason',
    '{ "silence": [{ "code": "chip-load-low" }] }',
    ['setup-conflict@{ "code": "chip-load-low" }'],
  ],
  [
    'speeds of a curve not rising',
    '{ "machine": { "spindle": { "power_kw": [[100, 1], [100, 2]] } } }',
    ['setup-range@[[100, 1], [100, 2]]'],
  ],
  [
    'least speed over top speed',
    '{ "machine": { "spindle": { "max_rpm": 10, "min_rpm": 20 } } }',
    ['setup-conflict@{ "max_rpm": 10, "min_rpm": 20 }'],
  ],
  ['key twice', '{ "coolant": "dry", "coolant": "mist" }', ['setup-key-twice@"coolant"']],
  ['hardness without scale', '{ "workpiece": { "hardness": "95" } }', ['setup-value@"95"']],
  ['a list instead of a sheet', '[1, 2]', ['setup-not-object@[1, 2]']],
  [
    'a key that every object has',
    '{ "__proto__": 1, "constructor": 2 }',
    ['setup-key-unknown@"__proto__"', 'setup-key-unknown@"constructor"'],
  ],
  ['empty file', '', []],
  ['comments only', '// nothing yet\n', []],
];

describe('setup: what is wrong in a sheet', () => {
  for (const [title, text, problems] of wrong) it(title, () => assert.deepEqual(problemsOf(text), problems));

  it('suggests the nearest key', () => {
    const { problems } = readSetupSheet('{ "workholdng": {} }', 'x.setup.json');
    assert.equal(problems[0]?.suggestion, 'workholding');
  });
  it('reads the rest of a broken file', () => {
    const text =
      '{ "units": "mm", "tools": { "1": { "diameter": 5, "teeth": } , "2": { "diameter": 6 } }, "coolant": "dry"';
    const { sheet, problems } = readSetupSheet(text, 'x.setup.json');
    assert.equal(sheet.tools?.get(1)?.diameter_mm?.value, 5);
    assert.equal(sheet.tools?.get(2)?.diameter_mm?.value, 6);
    assert.equal(sheet.coolant?.value, 'dry');
    assert.ok(problems.some(({ code }) => code === 'setup-json'));
  });
  it('keeps what is right beside what is wrong', () => {
    const { sheet } = readSetupSheet(
      '{ "units": "mm", "tools": { "1": { "diameter": 5, "teeth": -1 } } }',
      'x',
    );
    assert.equal(sheet.tools?.get(1)?.diameter_mm?.value, 5);
    assert.equal(sheet.tools?.get(1)?.teeth, undefined);
  });
  it('stays bounded on deep, long and broken files', () => {
    assert.equal(readSetupSheet('['.repeat(200_000), 'x').problems[0]?.code, 'setup-json');
    assert.equal(readSetupSheet('{"a":'.repeat(100_000), 'x').problems[0]?.code, 'setup-json');
    const many = `{${Array.from({ length: 5000 }, (_, index) => `"no${index}": 1`).join(',')}}`;
    assert.ok(readSetupSheet(many, 'x').problems.length <= 201);
    assert.equal(readSetupSheet('\u0000\u0001\uffff binary', 'x').problems[0]?.severity, 'error');
  });
  it('reads a file that begins with a byte order mark, at the right places', () => {
    const text = '\uFEFF{ "coolant": "wet" }';
    const { problems } = readSetupSheet(text, 'x');
    assert.deepEqual(
      problems.map(({ offset, length }) => text.slice(offset, offset + length)),
      ['"wet"'],
    );
  });
});

describe('setup: reading a crib', () => {
  it('reads machines, tools, materials and record', () => {
    const text = `{ "units": "mm",
      "machines": { "mill-3": { "kind": "mill", "standing": { "1": "em-12", "9": "probe" } } },
      "tools": { "em-12": { "kind": "end-mill", "diameter": 12, "teeth": 3, "called": ["12MM 3FL EM"] } },
      "materials": { "north castings": { "same_as": "GJL-250", "surface_speed": [60, 90] } },
      "record": "proven/2025.jsonl" }`;
    const { crib, problems } = readCrib(text, 'crib.json');
    assert.deepEqual(problems, []);
    assert.equal(crib.machines?.get('mill-3')?.standing?.get(1)?.id, 'em-12');
    assert.equal(crib.tools?.get('em-12')?.called?.[0]?.text, '12MM 3FL EM');
    assert.deepEqual(crib.materials?.get('north castings')?.surface_speed_m_min?.value, [60, 90]);
    assert.equal(crib.record?.value, 'proven/2025.jsonl');
  });
  for (const path of [
    '../proven.jsonl',
    '/proven.jsonl',
    'C:\\proven.jsonl',
    'proven.txt',
    '.jsonl',
    '~/proven.jsonl',
    'a/../../b.jsonl',
    '',
    'nul.jsonl',
    'file:proven.jsonl',
  ]) {
    it(`keeps the record inside the folder: ${JSON.stringify(path)}`, () =>
      assert.deepEqual(problemsOf(JSON.stringify({ record: path }), 'crib'), [
        `setup-path@${JSON.stringify(path)}`,
      ]));
  }
  it('allows a record beside or below', () => {
    for (const path of ['proven.jsonl', './proven.jsonl', 'record/proven.JSONL', 'record\\proven.jsonl'])
      assert.deepEqual(problemsOf(JSON.stringify({ record: path }), 'crib'), []);
  });
});
