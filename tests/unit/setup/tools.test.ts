import assert from 'node:assert/strict';
import {
  calledText,
  holdsSize,
  machineOf,
  missingOf,
  readCrib,
  readSetupSheet,
  type ToolChange,
  type ToolKnown,
  toolComments,
  toolsOf,
} from '../../../server/src/setup/index.ts';

type Job = {
  program: string;
  sheet?: string;
  crib?: string;
  person?: string;
  units?: 'inch' | 'mm';
  kind?: 'mill' | 'lathe';
};

/** Reads a program of comments and tool words as the review will, and gives what is known of its tools. */
function known({ program, sheet, crib, person, units = 'inch', kind = 'mill' }: Job): Map<number, ToolKnown> {
  const comments: { line: number; text: string; code: string }[] = [];
  const changes: ToolChange[] = [];
  for (const [index, block] of program.split('\n').entries()) {
    const code = block.replace(/\([^)]*\)/g, '').trim();
    for (const [, text] of block.matchAll(/\(([^)]*)\)/g))
      comments.push({ line: index + 1, text: text ?? '', code });
    const tool = /T(\d+)/.exec(code);
    if (tool)
      changes.push({
        line: index + 1,
        tool: kind === 'lathe' ? Math.floor(Number(tool[1]) / 100) : Number(tool[1]),
      });
  }
  const tools = changes.length > 0 ? changes.map(({ tool }) => tool) : [0];
  const read = sheet === undefined ? undefined : readSetupSheet(sheet, 'job.setup.json').sheet;
  const cribs = [
    ...(crib === undefined ? [] : [readCrib(crib, 'crib.json').crib]),
    ...(person === undefined ? [] : [readCrib(person, 'own/crib.json').crib]),
  ];
  const machine = machineOf(read, cribs, { kind });
  return toolsOf({
    tools,
    sheet: read,
    cribs,
    machine,
    comments: toolComments(comments, changes, { units, machine: kind }),
  });
}

/** One tool as `kind diameter teeth from`, with what is asked behind it. */
function line(tools: Map<number, ToolKnown>, number: number): string {
  const tool = tools.get(number);
  const { kind, diameter_mm, teeth, from, question } = tool ?? {};
  const values = [kind?.value, diameter_mm?.value, teeth?.value, from].map(value => value ?? '-').join(' ');
  return question ? `${values} ? ${question.why}` : values;
}

const crib = `{ "units": "inch",
  "machines": { "mill-3": { "kind": "mill", "standing": { "1": "em-12-3", "4": "drill-201" } } },
  "tools": {
    "em-12-3": { "kind": "end-mill", "diameter": "1/2 in", "teeth": 3, "called": ["1/2 3FL EM"] },
    "em-38-4": { "kind": "end-mill", "diameter": "3/8 in", "teeth": 4, "called": ["3/8 ENDMILL", "ROUGHER"] },
    "drill-201": { "kind": "drill", "diameter": 0.201, "teeth": 2 },
    "em-58-a": { "kind": "end-mill", "diameter": "5/8 in", "teeth": 3, "called": ["5/8 EM"] },
    "em-58-b": { "kind": "end-mill", "diameter": "5/8 in", "teeth": 4, "called": ["5/8 EM"] },
  } }`;

const where: [title: string, job: Job, number: number, expected: string][] = [
  ['nothing is known', { program: 'T1 M6\nG1 X1. F5.' }, 1, '- - - -'],
  [
    'a table at the top',
    { program: '(T1 1/2 3FL ENDMILL)\n(T2 .201 DRILL)\nT1 M6\nT2 M6' },
    2,
    'drill 5.1054 - comment',
  ],
  ['a comment on the block', { program: 'T1 M6 (1/2 ENDMILL)' }, 1, 'end-mill 12.7 - comment'],
  ['a comment on the block before', { program: '(1/2 ENDMILL)\nT1 M6\nT2 M6' }, 1, 'end-mill 12.7 - comment'],
  [
    'a comment on the block after',
    { program: 'T2 M6\nG0\nT1 M6\n(1/2 ENDMILL)' },
    1,
    'end-mill 12.7 - comment',
  ],
  ['an operation comment after it', { program: 'T1 M6\n(DRILL 1/2 HOLES THRU)\nT2 M6' }, 1, '- - - -'],
  ['an operation comment two lines away', { program: '(1/2 ENDMILL)\nM5\nT1 M6\nT2 M6' }, 1, '- - - -'],
  [
    'the only tool of a program',
    { program: '(TOOL DIAMETER: 0.25)\nG0 X0\nG1\nT1 M6' },
    1,
    '- 6.35 - comment',
  ],
  [
    'the only tool of a program without T',
    { program: '(TOOL DIAMETER: 0.25)\nG0 X0' },
    -1,
    '- 6.35 - comment',
  ],
  [
    'several lines make one tool',
    {
      program: '(TOOL TYPE : ENDMILL)\n(TOOL DIA.: 20 ; TIP RAD.: 1 & LENGTH : 75)\nT5 M6\nT6 M6',
      units: 'mm',
    },
    5,
    'end-mill 20 - comment',
  ],
  [
    'a written unit counts for the bare number below it',
    { program: '( Tool = Endmill 4mm )\n( Tool diameter = 4.0 )\nT1 M6' },
    1,
    'end-mill 4 - comment',
  ],
  [
    'a radius as a macro value',
    { program: '#4= 40. / 2. (RADIUS OF CUTTER)\nT1 M6', units: 'mm' },
    1,
    '- 40 - comment',
  ],
  [
    'two comments that differ',
    { program: '(T1 1/2 ENDMILL)\n\nT1 M6 (3/8 ENDMILL)' },
    1,
    'end-mill - - comment ? two comments differ (lines 1 and 3)',
  ],
  [
    'a size that can be read two ways',
    { program: 'T1 M6 (TC: 375_endmill)' },
    1,
    'end-mill - - comment ? "375" may be 375 mm, 375 in or no size',
  ],
  ['a comment about a tool that is not used', { program: '(T9 1/2 ENDMILL)\nT1 M6' }, 1, '- - - -'],
  [
    'the sheet',
    { program: 'T1 M6', sheet: '{"tools":{"1":{"kind":"end-mill","diameter":"1/2 in","teeth":3}}}' },
    1,
    'end-mill 12.7 3 setup',
  ],
  [
    'the sheet, the rest from the comment',
    { program: '(T1 1/2 3FL ENDMILL)\nT1 M6', sheet: '{"tools":{"1":{"diameter":"1/2 in"}}}' },
    1,
    'end-mill 12.7 3 setup',
  ],
  [
    'the sheet names another size than the comment',
    { program: '(T1 1/2 3FL ENDMILL)\nT1 M6', sheet: '{"tools":{"1":{"diameter":"3/8 in"}}}' },
    1,
    '- 9.525 - setup',
  ],
  [
    'the sheet names a crib tool',
    { program: 'T1 M6', crib, sheet: '{"tools":{"1":{"crib":"em-38-4","teeth":2}}}' },
    1,
    'end-mill 9.525 2 crib',
  ],
  [
    'the sheet names a crib tool that is not there',
    { program: 'T2 M6', crib, sheet: '{"tools":{"2":{"crib":"em-99"}}}' },
    2,
    '- - - - ? no tool "em-99" in the crib',
  ],
  ['a standing tool, no comment at all', { program: 'T1 M6\nT4 M6', crib }, 1, 'end-mill 12.7 3 crib'],
  ['a standing tool of the person', { program: 'T4 M6', person: crib }, 4, 'drill 5.1054 2 crib'],
  [
    'the sheet before a standing tool of another size',
    { program: 'T1 M6', crib, sheet: '{"tools":{"1":{"diameter":"3/8 in"}}}' },
    1,
    '- 9.525 - setup',
  ],
  [
    'a standing tool before the comment',
    { program: '(T1 3/8 ENDMILL)\nT1 M6', crib },
    1,
    'end-mill 12.7 3 crib',
  ],
  [
    'a tool that the comment calls so',
    { program: '(T7 3/8 ENDMILL)\nT7 M6', crib },
    7,
    'end-mill 9.525 4 crib',
  ],
  [
    'called so, in another spelling',
    { program: '(T7 - 3/8" END MILL)\nT7 M6 (H7)', crib: crib.replace('3/8 ENDMILL', '3/8in endmill') },
    7,
    'end-mill 9.525 4 crib',
  ],
  [
    'a longer text is not that tool',
    { program: '(T7 1-3/8 ENDMILL)\nT7 M6', crib },
    7,
    'end-mill 34.925 - comment',
  ],
  [
    'a longer text is not that tool, either',
    { program: '(T7 3/8 ENDMILL LONG)\nT7 M6', crib },
    7,
    'end-mill 9.525 - comment',
  ],
  ['a called text without a size does not count', { program: '(T7 ROUGHER)\nT7 M6', crib }, 7, '- - - -'],
  [
    'a called text that fits two tools asks',
    { program: '(T7 5/8 EM)\nT7 M6', crib },
    7,
    'end-mill 15.875 - comment ? the comment fits two tools of the crib',
  ],
  [
    'called so, but the size here is another',
    { program: '(T7 2. ENDMILL)\nT7 M6', units: 'mm', crib: crib.replace('3/8 ENDMILL', '2. ENDMILL') },
    7,
    'end-mill 2 - comment ? crib tool "em-38-4" is called so, but the size in this comment is another',
  ],
];

describe('setup: what is known of a tool', () => {
  for (const [title, job, number, expected] of where)
    it(title, () => assert.equal(line(known(job), number), expected));

  it('says where each value comes from', () => {
    const tool = known({
      program: '(T1 1/2 3FL ENDMILL)\nT1 M6',
      sheet: '{"tools":{"1":{"diameter":"1/2 in"}}}',
    }).get(1);
    assert.equal(tool?.diameter_mm?.origin.from, 'setup');
    assert.deepEqual(tool?.teeth?.origin, { from: 'comment', where: 'comment on line 1', line: 1 });
    assert.equal(tool?.confirmed, true);
    const standing = known({ program: 'T1 M6', crib }).get(1);
    assert.equal(standing?.teeth?.origin.from, 'standing');
    assert.equal(standing?.teeth?.origin.key, 'tools.em-12-3.teeth');
    assert.equal(standing?.cribId, 'em-12-3');
    const read = known({ program: '(T1 1/2 3FL ENDMILL)\nT1 M6' }).get(1);
    assert.equal(read?.confirmed, false);
  });
  it('is confirmed only when the source that says which tool it is was', () => {
    const half = known({
      program: '(T1 1/2 ENDMILL)\nT1 M6',
      sheet: '{"tools":{"1":{"stickout":"38 mm"}}}',
    }).get(1);
    assert.deepEqual(
      [half?.stickout_mm?.value, half?.from, half?.by, half?.confirmed],
      [38, 'comment', 'comment', false],
    );
    const called = known({ program: '(T7 3/8 ENDMILL)\nT7 M6', crib }).get(7);
    assert.deepEqual(
      [called?.from, called?.by, called?.confirmed, called?.cribId],
      ['crib', 'called', true, 'em-38-4'],
    );
    const standing = known({ program: 'T1 M6', crib }).get(1);
    assert.deepEqual([standing?.from, standing?.by, standing?.confirmed], ['crib', 'standing', true]);
  });
  it('does not fill a standing tool from another crib tool that the comment calls', () => {
    const other = crib
      .replace('"teeth": 3, "called": ["1/2 3FL EM"]', '"called": []')
      .replace('"5/8 in", "teeth": 3, "called": ["5/8 EM"]', '"1/2 in", "teeth": 4, "called": ["1/2 EM"]');
    assert.equal(line(known({ program: '(T1 1/2 EM)\nT1 M6', crib: other }), 1), 'end-mill 12.7 - crib');
  });
  it('names what is missing', () => {
    const tool = known({ program: '(T3 1/2 ENDMILL)\nT3 M6' }).get(3);
    assert.deepEqual(tool && missingOf(tool, ['diameter_mm', 'teeth', 'corner_radius_mm']), [
      'tool 3: teeth',
      'tool 3: corner radius',
    ]);
  });
  it('tells that comment and standing tool contradict each other', () => {
    const tool = known({ program: '(T1 3/8 ENDMILL)\nT1 M6', crib: crib.replace('"3/8 ENDMILL", ', '') }).get(
      1,
    );
    assert.deepEqual(
      tool?.contradictions.map(({ about, known: a, other }) => [about, a.value, other.value]),
      [['diameter_mm', 12.7, 9.525]],
    );
  });
  it('fills the nose radius from the insert', () => {
    const tool = known({
      program: 'T0101',
      kind: 'lathe',
      sheet: '{"tools":{"1":{"kind":"turn","insert":"CNMG120408"}}}',
    }).get(1);
    assert.equal(tool?.nose_radius_mm?.value, 0.8);
    assert.equal(tool?.nose_radius_mm?.origin.key, 'tools.1.insert');
  });
  it('asks which machine, when the crib has several that fit', () => {
    const two = readCrib(
      '{"machines":{"a":{"kind":"mill"},"b":{"kind":"mill"},"c":{"kind":"lathe"}}}',
      'crib.json',
    ).crib;
    assert.deepEqual(machineOf(undefined, [two], { kind: 'mill' }).question?.choices, ['a', 'b']);
    assert.equal(machineOf(undefined, [two], { kind: 'lathe' }).name, 'c');
    assert.equal(machineOf(undefined, [two], { name: 'b' }).name, 'b');
  });
});

describe('setup: what comments call a tool', () => {
  const texts: [string, string][] = [
    ['T1 5/8" 3FLUTE ENDMILL , 1.5 LOC', '5/8" 3FLUTE ENDMILL , 1.5 LOC'],
    ['T7 D=9.525 CR=0. - ZMIN=-14. - FLAT END MILL', 'D=9.525 CR=0. - FLAT END MILL'],
    ['3/8" END MILL W/4 FLUTES; T03', '3/8" END MILL W/4 FLUTES'],
    ['T12 |    6. FLAT ENDMILL | H12', '6. FLAT ENDMILL'],
  ];
  for (const [comment, text] of texts) it(`(${comment})`, () => assert.equal(calledText(comment), text));
  it('needs a size', () => {
    assert.deepEqual(
      [
        '1/2 3FL EM',
        'M6 TAP',
        'CNMG 432',
        '.125 GROOVE WIDTH .125',
        'ROUGHER',
        'DRILL 4 HOLES',
        'FACE MILL 5 FLUTES',
      ].map(holdsSize),
      [true, true, true, true, false, false, false],
    );
  });
});
