import assert from 'node:assert/strict';
import { isAbsent } from '../../../server/src/cutting/result.ts';
import type { Material } from '../../../server/src/materials/index.ts';
import {
  builtInMaterials,
  figuresLeftOut,
  findMaterial,
  forceFigures,
  windowFor,
  withUserMaterials,
} from '../../../server/src/materials/index.ts';
import { loadRow } from '../../../server/src/materials/row.ts';
import { materialRows } from '../../../server/src/materials/table.ts';

const steel = materialRows.find(row => row.id === '1045');

describe('sources of figures', () => {
  it('at least 50 materials, in every ISO 513 group, each with its own id', () => {
    assert.ok(builtInMaterials.length >= 50, String(builtInMaterials.length));
    assert.deepEqual([...new Set(builtInMaterials.map(material => material.group))].sort(), [
      'H',
      'K',
      'M',
      'N',
      'P',
      'S',
    ]);
    assert.equal(new Set(builtInMaterials.map(material => material.id)).size, builtInMaterials.length);
  });

  it('no figure of the data files is left out', () => assert.deepEqual(figuresLeftOut, []));

  it('every object that holds a figure names its source', () => {
    const walk = (value: unknown, path: string): void => {
      if (typeof value !== 'object' || value === null) return;
      const keys = Object.keys(value);
      const figure = keys.includes('value') || keys.includes('low');
      if (figure) {
        const text = (value as { source?: { text?: string } }).source?.text;
        assert.ok(typeof text === 'string' && text.length > 10, path);
      }
      for (const key of keys)
        if (key !== 'source') walk((value as Record<string, unknown>)[key], `${path}.${key}`);
    };
    for (const material of builtInMaterials) walk(material, material.id);
  });

  it('a figure without a source does not load, and is named', () => {
    assert.ok(steel);
    const cell = (source: string) => [2220, source] as unknown as (typeof steel)['kc11_n_mm2'];
    for (const source of ['', 'hearsay', 'toString', undefined as unknown as string]) {
      const { material, left_out } = loadRow({ ...steel, kc11_n_mm2: cell(source) });
      assert.deepEqual(left_out, ['1045: kc1.1']);
      assert.equal(material.kc11_n_mm2, undefined);
      assert.ok(isAbsent(forceFigures(material)));
    }
    const speeds = { ...steel.speed_m_min, milling: { hss: [30, 21, 'handbook-hss'] as const } };
    assert.deepEqual(loadRow({ ...steel, speed_m_min: speeds }).left_out, ['1045: speed milling hss']);
  });

  it('every material has figures for force, density, minimum chip, coolant and both feed tables', () => {
    for (const material of builtInMaterials) {
      assert.ok(!isAbsent(forceFigures(material)), material.id);
      const { density_kg_m3, h_min_over_edge_radius, coolant, mill_feed, drill_feed, behaviour } = material;
      for (const each of [density_kg_m3, h_min_over_edge_radius, coolant, mill_feed, drill_feed, behaviour])
        assert.ok(each, material.id);
      assert.ok(
        !isAbsent(windowFor({ material, kind: 'end-mill', substrate: 'carbide', diameter_mm: 10 })),
        material.id,
      );
    }
  });
});

describe('materials of the shop', () => {
  const { materials, problems } = withUserMaterials({
    'north castings': {
      same_as: 'GG25',
      kc11_n_mm2: 1300,
      chip_load_mm: [0.05, 0.09],
      called: ['NC-1'],
      note: 'sandy skin',
    },
    '6061': { same_as: '6061', surface_speed_m_min: [300, 400] },
    wood: { density_kg_m3: 700, mc: -1, hardness: 'soft' },
    odd: { same_as: '4140' },
  });
  const get = (name: string): Material => {
    const found = findMaterial(name, { materials });
    if (found.kind !== 'found') throw new Error(found.why);
    return found.material;
  };

  it('take the rest from a known one', () => {
    const material = get('nc 1');
    assert.equal(material.kc11_n_mm2?.value, 1300);
    assert.equal(material.kc11_n_mm2?.source.text, 'crib, material north castings');
    assert.equal(material.kc_reference_rake_deg, undefined);
    assert.equal(material.mc?.value, 0.26);
    assert.deepEqual(material.character, ['abrasive', 'cast-skin', 'short-chips']);
    assert.equal(material.behaviour, 'sandy skin');
  });

  it('win over a built-in one of the same name', () => {
    const window = windowFor({
      material: get('6061-T6'),
      kind: 'end-mill',
      diameter_mm: 10,
      substrate: 'carbide',
    });
    assert.ok(!isAbsent(window) && !isAbsent(window.surface_speed_m_min));
    const { low, high, basis, source } = window.surface_speed_m_min;
    assert.deepEqual([low, high, basis, source], [300, 400, 'maker', 'crib, material 6061']);
  });

  it('leave drills and taps to the tables', () => {
    const window = windowFor({ material: get('6061'), kind: 'drill', diameter_mm: 10, substrate: 'hss' });
    assert.ok(!isAbsent(window) && !isAbsent(window.surface_speed_m_min));
    assert.equal(window.surface_speed_m_min.high, 122);
  });

  it('keep absent what nobody stated', () => {
    const force = forceFigures(get('wood'));
    assert.ok(isAbsent(force));
    assert.deepEqual(force.missing, ['kc11_n_mm2', 'mc']);
    assert.ok(isAbsent(windowFor({ material: get('wood'), kind: 'end-mill', diameter_mm: 10 })));
  });

  it('name what could not be used', () => {
    assert.deepEqual(
      problems.map(({ name, why }) => `${name}: ${why.slice(0, 32)}`),
      [
        'wood: hardness needs a figure and a sc',
        'wood: mc must be over 0',
        'odd: "4140" is known in 2 conditions,',
      ],
    );
  });
});
