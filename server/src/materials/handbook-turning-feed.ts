import type { Absent } from '../cutting/result.ts';
import { absent } from '../cutting/result.ts';
import { knownSource } from './sources.ts';
import type { WindowRange, WindowRequest, WindowStep } from './window-request.ts';

/**
 * Feed per revolution of single-point tools, mm: common practice, no source.
 * Turning 0.05 to 0.5, boring 0.05 to 0.3, never over 0.8 of the nose radius where that is known; hardened metal and titanium or
 * nickel alloys up to 0.25 and 0.35; grooving and parting 0.02 to 0.05 of the blade's width, within 0.03 to 0.15 (0.3 for blades over 3 mm).
 */
export function handbookTurningFeed(request: WindowRequest): WindowRange | Absent {
  const { kind, material, nose_radius_mm: nose, width_mm: width } = request;
  const source = knownSource('practice');
  const steps: WindowStep[] = [];
  if (kind === 'groove' || kind === 'part-off') {
    if (width === undefined || !(width > 0)) {
      return {
        low: 0.03,
        high: 0.15,
        basis: 'handbook',
        source: source.text,
        steps,
        notes: ['width of the blade not stated'],
      };
    }
    const low = Math.max(0.03, 0.02 * width);
    const high = Math.max(low, Math.min(width > 3 ? 0.3 : 0.15, 0.05 * width));
    return { low, high, basis: 'handbook', source: source.text, steps, notes: [] };
  }
  if (kind === 'thread-turn') return absent('feed is the pitch of the thread');
  const low = 0.05;
  let high = kind === 'turn' ? 0.5 : 0.3;
  const limit = material?.group === 'H' ? 0.25 : material?.group === 'S' ? 0.35 : undefined;
  if (limit !== undefined && limit < high) {
    steps.push({ why: `${material?.name} (${source.text})`, factor: limit / high, end: 'high' });
    high = limit;
  }
  if (nose !== undefined && nose > 0 && 0.8 * nose < high) {
    const capped = Math.max(low, 0.8 * nose);
    const why = `feed at most 0.8 of the nose radius ${round(nose)} mm (${source.text})`;
    steps.push({ why, factor: capped / high, end: 'high' });
    high = capped;
  }
  const notes = nose === undefined ? ['nose radius not stated'] : [];
  return { low, high, basis: 'handbook', source: source.text, steps, notes };
}

function round(value: number): string {
  return String(Number(value.toFixed(3)));
}
