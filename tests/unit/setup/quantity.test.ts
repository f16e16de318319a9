import assert from 'node:assert/strict';
import { type QuantityKind, readQuantity, type SheetUnits } from '../../../server/src/setup/quantity.ts';
import { findThread, readPitch } from '../../../server/src/setup/threads.ts';

type Case = [kind: QuantityKind, raw: number | string, units: SheetUnits | undefined, inside: number];

// 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (international yard and pound agreement, 1959).
const readable: Case[] = [
  ['length', 2, 'mm', 2],
  ['length', 2, 'inch', 50.8],
  ['length', '1/2 in', 'mm', 12.7],
  ['length', '1/2"', undefined, 12.7],
  ['length', '1-1/4 in', undefined, 31.75],
  ['length', '1 1/4 in', undefined, 31.75],
  ['length', '0.5 in', 'mm', 12.7],
  ['length', '.375in', 'mm', 9.525],
  ['length', '12 mm', 'inch', 12],
  ['length', '12mm', 'inch', 12],
  ['length', '15 um', undefined, 0.015],
  ['length', '-0.5', 'mm', -0.5],
  ['length', '3/8', 'inch', 9.525],
  ['surface_speed', 250, 'mm', 250],
  ['surface_speed', 800, 'inch', 243.84],
  ['surface_speed', '800 sfm', 'mm', 243.84],
  ['surface_speed', '250 m/min', 'inch', 250],
  ['surface_speed', '4 m/s', undefined, 240],
  ['feed', '100 in/min', 'mm', 2540],
  ['feed', '30 ipm', undefined, 762],
  ['feed', '1.2 m/min', undefined, 1200],
  ['chip_load', '0.002 in', 'mm', 0.0508],
  ['chip_load', 0.003, 'inch', 0.0762],
  ['feed_per_rev', '0.2 mm/rev', undefined, 0.2],
  ['feed_per_rev', '0.008 ipr', undefined, 0.2032],
  ['time', '8 min', undefined, 480],
  ['time', '1.5 h', undefined, 5400],
  ['roughness', '0.8 um', 'inch', 0.8],
  ['roughness', '32 uin', 'mm', 0.8128],
  ['angle', 118, undefined, 118],
  ['power', '15 kW', undefined, 15],
];

const unreadable: [kind: QuantityKind, raw: number | string, units: SheetUnits | undefined, why: string][] = [
  ['length', 0.5, undefined, 'units'],
  ['length', '1/2', undefined, 'units'],
  ['length', '1/0 in', 'mm', 'number'],
  ['length', 'half an inch', 'mm', 'number'],
  ['length', '12,5 mm', 'mm', 'unit'],
  ['length', '12 furlongs', 'mm', 'unit'],
  ['length', '', 'mm', 'number'],
  ['length', '12 m/min', 'mm', 'unit'],
  ['length', '1.2.3 mm', 'mm', 'number'],
  ['surface_speed', 800, undefined, 'units'],
  ['surface_speed', '12 mm', 'mm', 'unit'],
  ['time', 8, 'mm', 'unit'],
  ['roughness', 0.8, 'mm', 'unit'],
  ['length', '5 constructor', 'mm', 'unit'],
];

describe('setup: quantities', () => {
  for (const [kind, raw, units, inside] of readable) {
    it(`${kind} ${JSON.stringify(raw)} in a sheet of ${units} is ${inside}`, () => {
      const reading = readQuantity(kind, raw, units);
      assert.ok('value' in reading, JSON.stringify(reading));
      assert.ok(Math.abs(reading.value - inside) <= 1e-9 * Math.abs(inside), `${reading.value}`);
    });
  }
  for (const [kind, raw, units, why] of unreadable) {
    it(`${kind} ${JSON.stringify(raw)} in a sheet of ${units} is not read: ${why}`, () => {
      const reading = readQuantity(kind, raw, units);
      assert.ok('why' in reading, JSON.stringify(reading));
      assert.equal(reading.why, why);
    });
  }
});

// ISO 261 (metric coarse), ASME B1.1 (unified), ASME B1.20.1 (NPT), ISO 228-1 (G): from memory.
const threads: [text: string, major_mm: number, pitch_mm: number][] = [
  ['M6x1', 6, 1],
  ['M10X1.5', 10, 1.5],
  ['M10-1.25', 10, 1.25],
  ['M8 TAP', 8, 1.25],
  ['TAP M12', 12, 1.75],
  ['1/4-20', 6.35, 1.27],
  ['TAP 1/4-20 UNC SPIRAL POINT', 6.35, 1.27],
  ['3/8-16 TAP', 9.525, 1.5875],
  ['10-32 TAP', 4.826, 0.79375],
  ['#10-24', 4.826, 1.0583333],
  ['1-8 UNC', 25.4, 3.175],
  ['1/2 UNF TAP', 12.7, 1.27],
  ['1/4 NPT TAP', 13.716, 1.4111111],
  ['G1/4 TAP', 13.157, 1.3368421],
];

describe('setup: thread names', () => {
  for (const [text, major, pitch] of threads) {
    it(`${text} has a pitch of ${pitch} mm on ${major} mm`, () => {
      const thread = findThread(text);
      assert.ok(thread);
      assert.ok(Math.abs(thread.major_diameter_mm - major) < 1e-6, `${thread.major_diameter_mm}`);
      assert.ok(Math.abs(thread.pitch_mm - pitch) < 1e-6, `${thread.pitch_mm}`);
    });
  }
  for (const text of ['M03', 'M30 END', 'M10X10', '03-0655', '1/4-2', 'ROUGH', 'M1000X1', '2024-05-12']) {
    it(`${text} is no thread name, or none with a pitch that can be`, () => {
      const thread = findThread(text);
      assert.equal(thread?.pitch_mm, text === 'M03' ? 0.5 : text === 'M30 END' ? 3.5 : undefined);
    });
  }
  it('reads a pitch from threads per inch and from nothing else', () => {
    assert.equal(readPitch('20 tpi'), 1.27);
    assert.equal(readPitch('M6x1'), 1);
    assert.equal(readPitch('1/4-20 UNC'), 1.27);
    assert.equal(readPitch('0.5 in'), undefined);
    assert.equal(readPitch('0 tpi'), undefined);
    assert.equal(readPitch('M6x1 and something else'), undefined);
  });
});
