import type { Absent } from '../cutting/result.ts';
import { absent } from '../cutting/result.ts';
import { drillBands_mm, drillFeed, millBands_mm, millFeed } from './data/feed-tables.ts';
import { deepHoleSteps, mayHoldInserts, spanOf, substrates, withSteps } from './handbook-speed.ts';
import { handbookTurningFeed } from './handbook-turning-feed.ts';
import { knownSource } from './sources.ts';
import { isMill, isSinglePoint } from './tool-kind.ts';
import type { WindowRange, WindowRequest, WindowStep } from './window-request.ts';

type Band = readonly [low: number, high: number];

/**
 * Feed window out of the handbook tables before narrowing: mm per tooth for mills, mm per revolution for drills, reamers and
 * single-point tools. Over the largest band of a table the last band stands in and a note says so.
 */
export function handbookFeed(request: WindowRequest): WindowRange | Absent {
  const { material, kind, substrate } = request;
  if (kind === 'other') return absent('kind of tool not known', ['kind']);
  if (material === undefined) return absent('material not known', ['material']);
  if (substrate !== undefined && substrate !== 'hss' && substrate !== 'carbide') {
    return absent(`no handbook feed for ${substrate} tools: state the maker's range`, ['maker']);
  }
  if (isSinglePoint(kind)) return handbookTurningFeed(request);
  if (kind === 'center-drill') return absent('no handbook feed for center drills');
  const diameter = request.diameter_mm;
  if (diameter === undefined || !(diameter > 0)) return absent('diameter not known', ['diameter_mm']);
  return isMill(kind) ? millingFeed(request, diameter) : drillingFeed(request, diameter);
}

function millingFeed(request: WindowRequest, diameter_mm: number): WindowRange | Absent {
  const { material, kind } = request;
  const substrate = request.substrate as 'hss' | 'carbide' | undefined;
  const table = material?.mill_feed && millFeed[material.mill_feed];
  if (table === undefined) return absent(`no feed table for ${material?.name ?? 'the material'}`);
  // Inserts of a face mill do not shrink with the cutter: their feed is that of the largest band at any diameter.
  const at = kind === 'face-mill' ? millBands_mm.length - 1 : bandOf(millBands_mm, diameter_mm);
  const steps = millSteps(request);
  const ranges = substrates(substrate).flatMap(each => {
    const band = table[each]?.[at];
    return band === undefined ? [] : [withSteps(figure(band, 'textbooks'), steps)];
  });
  if (ranges.length === 0) return absent(`no milling feed for ${material?.name} with ${substrate}`);
  const span = spanOf(ranges, substrate);
  return kind === 'face-mill' ? span : noteOver(span, diameter_mm, millBands_mm);
}

function millSteps(request: WindowRequest): readonly WindowStep[] {
  const practice = knownSource('practice').text;
  const steps: WindowStep[] = [];
  if (request.kind === 'face-mill') {
    steps.push({ why: `inserts stand twice the feed of an end mill (${practice})`, factor: 2, end: 'high' });
  }
  if (request.kind === 'thread-mill') {
    steps.push({
      why: `thread milling from half the end mill's feed (${practice})`,
      factor: 0.5,
      end: 'low',
    });
  }
  if (request.kind === 'slot-mill') {
    steps.push({
      why: `thin side cutters from 0.15 of an end mill's feed (${practice})`,
      factor: 0.15,
      end: 'low',
    });
  }
  if (request.kind === 'ball-mill') {
    const why = `a ball cuts on less than its diameter and a light pass thins the chip (${practice})`;
    steps.push({ why, factor: 2, end: 'high' });
  }
  const share = request.radial_share;
  if (share !== undefined && share > 0 && share < 0.5) {
    const wanted = 1 / (2 * Math.sqrt(share - share * share));
    const held = wanted > 3 ? ', held at 3' : '';
    const why = `chip is thin at ${Math.round(share * 100)} % of the diameter wide: more feed is allowed${held}`;
    steps.push({ why, factor: Math.min(3, wanted), end: 'high' });
  }
  return steps;
}

function drillingFeed(request: WindowRequest, diameter_mm: number): WindowRange | Absent {
  const { material, kind } = request;
  const substrate = request.substrate as 'hss' | 'carbide' | undefined;
  const band = material?.drill_feed && drillFeed[material.drill_feed][bandOf(drillBands_mm, diameter_mm)];
  if (band === undefined) return absent(`no feed table for ${material?.name ?? 'the material'}`);
  const practice = knownSource('practice').text;
  const ranges = substrates(substrate).map(each => {
    const steps: WindowStep[] = [];
    if (kind === 'reamer') {
      const why = `reaming at 2 to 3 times the drilling feed (${practice})`;
      steps.push({ why, factor: 2, end: 'low' }, { why, factor: 3, end: 'high' });
    } else if (kind === 'spot-drill') {
      steps.push({ why: `spotting from 0.4 of the drilling feed (${practice})`, factor: 0.4, end: 'low' });
    } else if (each === 'carbide' && material?.drill_feed !== 'hard') {
      steps.push({ why: `solid carbide drills stand more feed (${practice})`, factor: 1.3, end: 'high' });
    }
    if (each === 'carbide' && mayHoldInserts(request)) {
      steps.push({
        why: `drills with inserts from 0.35 of the feed (${practice})`,
        factor: 0.35,
        end: 'low',
      });
    }
    steps.push(...deepHoleSteps(request, each, 'feed'));
    return withSteps(figure(band, 'handbook-drill-feeds'), steps);
  });
  return noteOver(spanOf(ranges, substrate), diameter_mm, drillBands_mm);
}

/** Index of the band a diameter falls in: over the lower end, up to and with the upper end; the last one above the table. */
function bandOf(bands_mm: readonly Band[], diameter_mm: number): number {
  const at = bands_mm.findIndex(([, to]) => diameter_mm <= to * (1 + 1e-9));
  return at < 0 ? bands_mm.length - 1 : at;
}

function figure([low, high]: Band, key: 'textbooks' | 'handbook-drill-feeds') {
  return { low, high, source: knownSource(key) };
}

function noteOver(range: WindowRange, diameter_mm: number, bands_mm: readonly Band[]): WindowRange {
  const top = bands_mm[bands_mm.length - 1]![1];
  if (diameter_mm <= top) return range;
  return { ...range, notes: [...range.notes, `table ends at ${top} mm: its last band is used`] };
}
