import type { Absent } from '../cutting/result.ts';
import { absent } from '../cutting/result.ts';
import { deepHole } from './data/feed-tables.ts';
import type { Material, RangeFigure, SpeedOperation, TabledSubstrate } from './material.ts';
import { knownSource } from './sources.ts';
import type { ToolKind } from './tool-kind.ts';
import { isMill } from './tool-kind.ts';
import type { WindowRange, WindowRequest, WindowStep } from './window-request.ts';

/**
 * Surface speed window out of the speed tables, m/min, before narrowing.
 * Reamers run at 0.5 to 0.7 of the drilling speed in ferrous metal and at the drilling speed in non-ferrous; grooving, parting
 * and threading below turning; deep holes by conventional drills slower. Sources: those of the figures, and the steps say the rest.
 */
export function handbookSpeed(request: WindowRequest): WindowRange | Absent {
  const { material, kind, substrate } = request;
  if (material === undefined) return absent('material not known', ['material']);
  if (substrate !== undefined && substrate !== 'hss' && substrate !== 'carbide') {
    return absent(`no handbook speed for ${substrate} tools: state the maker's range`, ['maker']);
  }
  if (kind === 'other') return absent('kind of tool not known', ['kind']);
  const operation = speedOperation(kind);
  const figures = material.speed_m_min[operation];
  const steps = kindSteps(request, material);
  const ranges = substrates(substrate).flatMap(each => {
    const figure = figures?.[each];
    return figure === undefined
      ? []
      : [
          withSteps(figure, [
            ...steps,
            ...insertSteps(request, each),
            ...deepHoleSteps(request, each, 'speed'),
          ]),
        ];
  });
  if (ranges.length === 0) {
    const tool = substrate === undefined ? '' : ` with ${substrate}`;
    return absent(`no figure for ${operation} ${material.name}${tool}`);
  }
  return spanOf(ranges, substrate);
}

/** The tool materials to look up: the stated one, or both tabled ones when it is not stated. */
export function substrates(stated: 'hss' | 'carbide' | undefined): readonly TabledSubstrate[] {
  return stated === undefined ? ['hss', 'carbide'] : [stated];
}

/** Applies steps to a handbook figure. */
export function withSteps(figure: RangeFigure, steps: readonly WindowStep[]): WindowRange {
  let { low, high } = figure;
  for (const step of steps) {
    if (step.end !== 'high') low *= step.factor;
    if (step.end !== 'low') high *= step.factor;
  }
  return { low, high, basis: 'handbook', source: figure.source.text, steps, notes: [] };
}

/** The span of several ranges, marked when it is one because the tool material is not stated. */
export function spanOf(ranges: readonly WindowRange[], substrate: string | undefined): WindowRange {
  const low = Math.min(...ranges.map(range => range.low));
  const high = Math.max(...ranges.map(range => range.high));
  const source = [...new Set(ranges.map(range => range.source))].join('; ');
  const steps = ranges.flatMap(range => range.steps);
  const unique = steps.filter(
    (step, at) => steps.findIndex(s => s.why === step.why && s.end === step.end) === at,
  );
  const notes = substrate === undefined ? ['tool material not stated'] : [];
  return { low, high, basis: 'handbook', source, steps: unique, notes };
}

/** Steps for the depth of a hole over its drill; conventional drills only, not solid carbide. */
export function deepHoleSteps(
  request: WindowRequest,
  substrate: TabledSubstrate,
  on: 'speed' | 'feed',
): readonly WindowStep[] {
  const { kind, hole_depth_mm, diameter_mm } = request;
  if (kind !== 'drill' || substrate !== 'hss' || !hole_depth_mm || !diameter_mm) return [];
  const ratio = hole_depth_mm / diameter_mm;
  const row = deepHole.findLast(each => ratio >= each.depth_over_diameter);
  if (row === undefined) return [];
  const source = knownSource('drill-guides').text;
  return [{ why: `hole ${ratio.toFixed(1)} x D deep (${source})`, factor: row[on], end: 'both' }];
}

/** Sheets name no drill with inserts: one edge, or carbide of this size and up, may be one. */
const INSERTS_FROM_MM = 16;

/** True for a carbide drill that may carry inserts, which run faster and feed less than solid ones. */
export function mayHoldInserts({ kind, teeth, diameter_mm }: WindowRequest): boolean {
  if (kind !== 'drill') return false;
  return teeth === 1 || (diameter_mm !== undefined && diameter_mm >= INSERTS_FROM_MM);
}

function insertSteps(request: WindowRequest, substrate: TabledSubstrate): readonly WindowStep[] {
  if (substrate !== 'carbide' || !mayHoldInserts(request)) return [];
  return [
    {
      why: `drills with inserts up to twice as fast (${knownSource('practice').text})`,
      factor: 2,
      end: 'high',
    },
  ];
}

function speedOperation(kind: ToolKind): SpeedOperation {
  if (isMill(kind)) return 'milling';
  if (kind === 'tap') return 'tapping';
  if (kind === 'drill' || kind === 'spot-drill' || kind === 'center-drill' || kind === 'reamer')
    return 'drilling';
  return 'turning';
}

function kindSteps({ kind }: WindowRequest, material: Material): readonly WindowStep[] {
  const practice = knownSource('practice').text;
  if (kind === 'reamer' && material.group !== 'N') {
    const why = `reaming at 0.5 to 0.7 of the drilling speed (${knownSource('handbook-reaming').text})`;
    return [
      { why, factor: 0.5, end: 'low' },
      { why, factor: 0.7, end: 'high' },
    ];
  }
  if (kind === 'ball-mill') {
    const why = `a ball cuts on less than its diameter (${practice})`;
    return [{ why, factor: 1.5, end: 'high' }];
  }
  if (kind === 'groove' || kind === 'part-off') {
    const why = `${kind === 'groove' ? 'grooving' : 'parting'} below turning speed (${practice})`;
    return [
      { why, factor: 0.5, end: 'low' },
      { why, factor: 0.8, end: 'high' },
    ];
  }
  if (kind === 'thread-turn') {
    const why = `threading below turning speed (${practice})`;
    return [
      { why, factor: 0.3, end: 'low' },
      { why, factor: 0.8, end: 'high' },
    ];
  }
  return [];
}
