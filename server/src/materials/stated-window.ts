import type { StatedWindow } from './material.ts';
import { isMill } from './tool-kind.ts';
import type { WindowBasis, WindowRange, WindowRequest } from './window-request.ts';

type Pair = readonly [low: number, high: number];

/**
 * The best feed that somebody stated: proven, then the tool maker's, then the shop's own figure for the material.
 * Says whether it is per tooth or per revolution, mm. A range out of order or not above zero does not count.
 */
export function statedFeed(
  request: WindowRequest,
): { readonly range: WindowRange; readonly per: 'tooth' | 'revolution' } | undefined {
  for (const [window, basis] of statedIn(request)) {
    const perTooth = rangeOf(window.chip_load_mm, window, basis);
    if (perTooth !== undefined) return { range: perTooth, per: 'tooth' };
    const perRevolution = rangeOf(window.feed_per_rev_mm, window, basis);
    if (perRevolution !== undefined) return { range: perRevolution, per: 'revolution' };
  }
  return undefined;
}

/** The best surface speed that somebody stated, m/min; the order is that of `statedFeed`. */
export function statedSpeed(request: WindowRequest): WindowRange | undefined {
  for (const [window, basis] of statedIn(request)) {
    const range = rangeOf(window.surface_speed_m_min, window, basis);
    if (range !== undefined) return range;
  }
  return undefined;
}

function* statedIn(request: WindowRequest): Iterable<readonly [StatedWindow, WindowBasis]> {
  if (request.proven !== undefined) yield [request.proven, 'proven'];
  if (request.maker !== undefined) yield [request.maker, 'maker'];
  const own = request.material?.own;
  if (own !== undefined) yield [ownFor(request, own), 'maker'];
}

/** A material's own figures are for mills and for turning; drills, reamers, taps and blades keep the tables. */
function ownFor({ kind }: WindowRequest, own: StatedWindow): StatedWindow {
  const { source, chip_load_mm, feed_per_rev_mm, surface_speed_m_min } = own;
  if (isMill(kind)) return { source, chip_load_mm, surface_speed_m_min };
  const turns = kind === 'turn' || kind === 'bore' || kind === 'bore-bar';
  return turns ? { source, feed_per_rev_mm, surface_speed_m_min } : { source };
}

function rangeOf(pair: Pair | undefined, window: StatedWindow, basis: WindowBasis): WindowRange | undefined {
  if (pair === undefined) return undefined;
  const [low, high] = pair;
  if (!(low >= 0 && high >= low && high > 0 && Number.isFinite(high))) return undefined;
  return { low, high, basis, source: window.source, steps: [], notes: [] };
}
