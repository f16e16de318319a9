import { type Block, L } from './block.ts';
import { tipOfReport, tipShift } from './compensation/nose.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/**
 * G41, G42 and their forms that state the diameter: side, radius and tip direction of the compensation. The radius stays
 * not known where the path is not followed, and what is missing is said.
 */
export function compensate(machine: Machine, block: Block, side: 41 | 42, given: boolean): void {
  const { v } = machine.state;
  v[S.compensation] = side;
  if (!given) {
    if (block.has(L.D)) v[S.radius_offset] = block.number(L.D);
    else if (machine.report) v[S.radius_offset] = v[S.tool];
    readOffset(machine);
    return;
  }
  // The block states the diameter itself: the centre of the tool is known, whatever the contour is.
  v[S.comp_radius] = machine.length(block, block.index(L.D)) / 2;
  v[S.comp_tip] = block.has(L.L) && v[S.plane] === 18 ? tipOfReport(block.number(L.L)) : Number.NaN;
}

/** Radius and tip direction of the offset in force: what the program wrote by G10, else what the sheet says. */
export function readOffset(machine: Machine): void {
  const { settings, state, ignores_compensation } = machine;
  const { v } = state;
  v[S.comp_radius] = Number.NaN;
  v[S.comp_tip] = Number.NaN;
  if (ignores_compensation) return;
  const number = Number.isNaN(v[S.radius_offset]) ? v[S.tool] : v[S.radius_offset];
  if (number === 0) {
    v[S.comp_radius] = 0;
    return;
  }
  if (settings.kind === 'lathe' && v[S.plane] === 18) readNose(machine, number);
  else readCutter(machine, number);
}

/** The radius that the program wrote into the offset table, with its wear; NaN where it wrote none. */
function writtenRadius(machine: Machine, number: number): number {
  const row = machine.state.offsets?.get(number);
  if (row === undefined || Number.isNaN(row.radius_mm)) return Number.NaN;
  return row.radius_mm + (Number.isNaN(row.wear_mm) ? 0 : row.wear_mm);
}

function readCutter(machine: Machine, number: number): void {
  const { settings, state } = machine;
  const { v } = state;
  const written = writtenRadius(machine, number);
  if (written >= 0) {
    v[S.comp_radius] = written;
    const tip = state.offsets?.get(number).tip ?? Number.NaN;
    if (machine.report && v[S.plane] === 18) v[S.comp_tip] = tip;
  } else if (settings.compensation === 'wear-only') {
    machine.assume('wear-only', WEAR_ONLY);
  } else if (settings.compensation === undefined) {
    const text =
      'whether the program is the part edge is not known: the programmed path was taken, without compensation';
    machine.assume('compensation-not-modelled', text);
  } else {
    const across = settings.toolDiameter_mm?.(v[S.radius_offset], v[S.tool]) ?? Number.NaN;
    v[S.comp_radius] = across / 2;
    if (!(across > 0)) {
      const text =
        'the diameter of a tool with cutter compensation is not known: the programmed path was taken';
      machine.assume('compensation-diameter-unknown', text);
    }
  }
}

const WEAR_ONLY = 'the program is taken as the path of the tool centre; the offset is wear only';

/**
 * Nose radius and tip direction. The moves are followed where the sheet says that the program is the part edge, or states
 * the tip direction of the tool, or where the program itself writes the radius into the table.
 */
function readNose(machine: Machine, number: number): void {
  const { settings, state } = machine;
  const { v } = state;
  const row = state.offsets?.get(number);
  const known = settings.toolNose?.(v[S.radius_offset], v[S.tool]);
  const written = writtenRadius(machine, number);
  let radius = Number.isNaN(written) ? (known?.radius_mm ?? Number.NaN) : written;
  let tip = row === undefined || Number.isNaN(row.tip) ? (known?.tip ?? Number.NaN) : row.tip;
  if (Number.isNaN(written) && settings.compensation === 'wear-only') {
    machine.assume('wear-only', 'the program is taken as the path of the tool tip; the offset is wear only');
    return;
  }
  if (tipShift(tip, 0) === undefined) tip = Number.NaN;
  if (machine.report) {
    if (Number.isNaN(radius))
      radius = (settings.toolDiameter_mm?.(v[S.radius_offset], v[S.tool]) ?? Number.NaN) / 2;
    if (Number.isNaN(tip) && radius > 0 && (written >= 0 || settings.compensation !== undefined)) {
      machine.assume(
        'nose-tip-centre',
        'the tip direction is not stated: taken as 0, the centre of the nose',
      );
      tip = 0;
    }
  }
  const followed = settings.compensation === 'part-edge' || !Number.isNaN(written) || !Number.isNaN(tip);
  const missing = [
    ...(followed ? [] : ['whether the program is the part edge']),
    ...(Number.isNaN(radius) ? ['the nose radius'] : []),
    ...(Number.isNaN(tip) ? ['the tip direction'] : []),
  ];
  if (missing.length > 0) {
    const tool = Number.isNaN(v[S.tool]) ? 'the tool' : `tool ${v[S.tool]}`;
    const text = `nose radius compensation of ${tool}: not known ${missing.join(', ')}; the programmed path was taken`;
    machine.assume('nose-compensation', text);
    return;
  }
  v[S.comp_radius] = radius;
  v[S.comp_tip] = tip;
}
