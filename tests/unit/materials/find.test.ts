import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtInMaterials, findMaterial, readHardness } from '../../../server/src/materials/index.ts';

/** Which material a designation names: product standards (EN, AISI/SAE, UNS, JIS, DIN, AA), from memory. */
const found: readonly (readonly [text: string, id: string, temper?: string])[] = [
  ['6061', '6061'],
  ['6061-T6', '6061', 'T6'],
  ['6061T6', '6061', 'T6'],
  ['AA 6061 T651', '6061', 'T651'],
  ['Al 6061-T6 plate', '6061', 'T6'],
  ['aluminium 6061', '6061'],
  ['EN AW-6061', '6061'],
  ['EN AW-6061-T6', '6061', 'T6'],
  ['A96061', '6061'],
  ['3.3211', '6061'],
  ['6082-T6', '6061', 'T6'],
  ['5052-H32', '5052', 'H32'],
  ['7075-T7351', '7075', 'T7351'],
  ['AlZn5.5MgCu', '7075'],
  ['C45', '1045'],
  ['c 45', '1045'],
  ['C45E', '1045'],
  ['C45+N', '1045'],
  ['Ck45', '1045'],
  ['1.0503', '1045'],
  ['1.1191', '1045'],
  ['W.Nr. 1.1191', '1045'],
  ['AISI 1045', '1045'],
  ['SAE1045', '1045'],
  ['G10450', '1045'],
  ['S45C', '1045'],
  ['304', '304'],
  ['304L', '304'],
  ['SS304', '304'],
  ['304 stainless steel', '304'],
  ['1.4301', '304'],
  ['X5CrNi18-10', '304'],
  ['x5 crni 18 10', '304'],
  ['X5CrNi18–10', '304'],
  ['SUS304', '304'],
  ['S30400', '304'],
  ['1.4301 (304)', '304'],
  ['AISI 304 / X5CrNi18-10', '304'],
  ['304/304L', '304'],
  ['GG25', 'grey-250'],
  ['GG-25', 'grey-250'],
  ['EN-GJL-250', 'grey-250'],
  ['GJL 250', 'grey-250'],
  ['0.6025', 'grey-250'],
  ['FC250', 'grey-250'],
  ['A48 class 40', 'grey-250'],
  ['GGG40', 'ductile-400'],
  ['A36', 'a36-s235'],
  ['St 37-2', 'a36-s235'],
  ['SS400', 'a36-s235'],
  ['1018 CRS', '1018'],
  ['4140 HT', '4140-ph'],
  ['4140 pre-hardened', '4140-ph'],
  ['4140 annealed', '4140-annealed'],
  ['42CrMo4+QT', '4140-ph'],
  ['42CrMo4+A', '4140-annealed'],
  ['AISI 4140 30 HRC', '4140-ph'],
  ['D2 60 HRC', 'd2-60hrc'],
  ['1.2379 annealed', 'd2'],
  ['1.2379 (60 HRC)', 'd2-60hrc'],
  ['17-4PH H900', '17-4ph', 'H900'],
  ['1.4542', '17-4ph'],
  ['Ti-6Al-4V', 'ti-6al-4v'],
  ['Ti 6Al 4V', 'ti-6al-4v'],
  ['Grade 5', 'ti-6al-4v'],
  ['3.7165', 'ti-6al-4v'],
  ['Alloy 718', 'alloy-718'],
  ['N07718', 'alloy-718'],
  ['2.4668', 'alloy-718'],
  ['CuZn39Pb3', 'c360'],
  ['C36000', 'c360'],
  ['POM-C', 'pom'],
  ['AZ91D', 'az31'],
];

/** Names that must not be settled in silence, with a material that must stand among the nearest. */
const notFound: readonly (readonly [text: string, kind: 'ambiguous' | 'unknown', nearest: string])[] = [
  ['4140', 'ambiguous', '4140-ph'],
  ['42CrMo4', 'ambiguous', '4140-annealed'],
  ['D2', 'ambiguous', 'd2-60hrc'],
  ['6061/7075', 'ambiguous', '7075'],
  ['stainless', 'unknown', '304'],
  ['mild steel', 'unknown', 'a36-s235'],
  ['brass', 'unknown', 'c360'],
  ['nickel 718', 'unknown', 'alloy-718'],
  ['1.4031', 'unknown', '304'],
  ['6016', 'unknown', '6061'],
  ['7O75', 'unknown', '7075'],
  ['X5CrNi1810N', 'unknown', '304'],
  ['aluminium 304', 'unknown', '304'],
  ['GG26', 'unknown', 'grey-250'],
  ['acetall', 'unknown', 'pom'],
];

describe('finding a material', () => {
  for (const [text, id, temper] of found) {
    it(`${text} is ${id}`, () => {
      const got = findMaterial(text);
      assert.deepEqual(got.kind === 'found' ? [got.material.id, got.temper] : got, [id, temper]);
    });
  }
  for (const [text, kind, nearest] of notFound) {
    it(`${text} is ${kind}`, () => {
      const got = findMaterial(text);
      if (got.kind === 'found') return assert.fail(`found ${got.material.id}`);
      assert.equal(got.kind, kind);
      const ids = got.nearest.map(material => material.id);
      assert.ok(ids.includes(nearest), ids.join(' '));
      assert.ok(ids.length <= 5);
      assert.notEqual(got.why, '');
    });
  }

  it('an empty name has no nearest', () => {
    assert.deepEqual(findMaterial(' '), {
      kind: 'unknown',
      why: 'an empty name is not a known material',
      nearest: [],
    });
  });

  it('the hardness of the sheet settles a condition', () => {
    for (const [hardness, id] of [
      ['200 HB', '4140-annealed'],
      ['30 HRC', '4140-ph'],
    ] as const) {
      const got = findMaterial('4140', { hardness: readHardness(hardness) });
      assert.equal(got.kind === 'found' && got.material.id, id);
    }
    assert.equal(findMaterial('4140', { hardness: readHardness('60 HRC') }).kind, 'ambiguous');
  });

  it('says when figures are for something else', () => {
    const notes = (text: string, hardness?: string) => {
      const got = findMaterial(text, {
        hardness: hardness === undefined ? undefined : readHardness(hardness),
      });
      return got.kind === 'found' ? got.notes : got.why;
    };
    assert.deepEqual(notes('6061-T6'), []);
    assert.deepEqual(notes('6061-O'), ['figures are for T6, T651, T6511, not for O']);
    assert.deepEqual(notes('6082'), ['6082 taken as its near relative 6061']);
    assert.deepEqual(notes('C45', '55 HRC'), ['figures are for 170-225 HB']);
    assert.deepEqual(notes('C45', '200 HB'), []);
  });

  it('every stated name finds its own row, or says which rows share it', () => {
    for (const material of builtInMaterials) {
      for (const { text } of material.designations) {
        for (const spelled of [text, text.toLowerCase(), text.replace(/[ -]/g, ''), ` ${text} `]) {
          const got = findMaterial(spelled);
          const ids = got.kind === 'found' ? [got.material.id] : got.nearest.map(each => each.id);
          assert.notEqual(got.kind, 'unknown', spelled);
          assert.ok(ids.includes(material.id), `${spelled}: ${ids.join(' ')}, not ${material.id}`);
        }
      }
    }
  });

  it('names of different alloys never collide', () => {
    const alloys = new Map<string, string>();
    const alloy = (id: string) => id.replace(/-(annealed|ph|\d+hrc)$/, '');
    for (const material of builtInMaterials) {
      for (const { text, near } of material.designations) {
        if (near) continue;
        const key = text.toUpperCase().replace(/[^A-Z0-9+]/g, '');
        assert.equal(alloys.get(key) ?? alloy(material.id), alloy(material.id), text);
        alloys.set(key, alloy(material.id));
      }
    }
  });

  it('takes any text', () => {
    const piece = fc.constantFrom(
      '6061',
      'T6',
      '-',
      ' ',
      '/',
      '(',
      'HRC',
      '48',
      'AISI',
      'X5CrNi',
      '+QT',
      'STEEL',
      '\u0000',
      'é',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 300 }),
          fc.array(piece, { maxLength: 12 }).map(parts => parts.join('')),
        ),
        text => {
          const got = findMaterial(text);
          if (got.kind !== 'found') assert.doesNotMatch(got.why, /[\u0000-\u001f]/);
        },
      ),
      { seed: 7, numRuns: 2000 },
    );
    assert.equal(findMaterial('9'.repeat(1_000_000)).kind, 'unknown');
    assert.equal(findMaterial('constructor').kind, 'unknown');
  });
});

describe('reading a hardness', () => {
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['95 HB', 'HB 95 95'],
    ['HRC 48-52', 'HRC 48 52'],
    ['48 to 52 HRC', 'HRC 48 52'],
    ['280 HBW', 'HB 280 280'],
    ['250HV', 'HV 250 250'],
    ['95', undefined],
    ['hard', undefined],
    ['0 HB', undefined],
  ];
  for (const [text, expected] of rows) {
    it(text, () => {
      const got = readHardness(text);
      assert.equal(got && `${got.scale} ${got.low} ${got.high}`, expected);
    });
  }
});
