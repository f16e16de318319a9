import type { Absent } from '../cutting/result.ts';
import { absent, isAbsent } from '../cutting/result.ts';
import { handbookFeed } from './handbook-feed.ts';
import { handbookSpeed } from './handbook-speed.ts';
import { narrow } from './narrowing.ts';
import { statedFeed, statedSpeed } from './stated-window.ts';
import type { ToolKind } from './tool-kind.ts';
import { isHoleTool, isSinglePoint } from './tool-kind.ts';
import type { WindowBasis, WindowRange, WindowRequest } from './window-request.ts';

/** The windows of one tool in one material. Feed is per tooth for mills, per revolution for drills, reamers and single-point tools. */
export interface Window {
  /** mm per tooth (mill), per lip (drill), per revolution (single point). */
  readonly chip_load_mm: WindowRange | Absent;
  readonly feed_per_rev_mm: WindowRange | Absent;
  readonly surface_speed_m_min: WindowRange | Absent;
  /** The weakest basis among the ranges that are known: what first contact counts. */
  readonly basis: WindowBasis;
  /** Sources of the ranges that are known, joined. */
  readonly source: string;
}

/**
 * The windows for feed and surface speed of a tool in a material.
 *
 * For each quantity the best source wins: proven in this shop > tool maker > handbook (a material of the shop's own counts as its
 * maker). Maker and handbook ranges are narrowed by stickout, grip, wear and runout, each step named; proven ranges are not, they
 * hold for this setup. An unknown tool material gives the span of high-speed steel and carbide, marked so.
 * Units: mm, m/min. Absent, with what is missing, where nothing is known: probes, tapping feed (it is the pitch), no material.
 */
export function windowFor(request: WindowRequest): Window | Absent {
  if (request.kind === 'probe') return absent('a probe does not cut');
  const speed = speedWindow(request);
  const feeds = feedWindows(request);
  const known = [feeds.chip_load_mm, feeds.feed_per_rev_mm, speed].filter(isKnown);
  if (known.length === 0) {
    const reasons = [feeds.chip_load_mm, feeds.feed_per_rev_mm, speed].filter(isAbsent);
    const missing = [...new Set(reasons.flatMap(reason => reason.missing ?? []))];
    const words = [...new Set(reasons.map(reason => reason.absent))].join('; ');
    return absent(words, missing.length > 0 ? missing : undefined);
  }
  const rank: readonly WindowBasis[] = ['proven', 'maker', 'handbook'];
  const weakest = known.reduce((worst, range) => Math.max(worst, rank.indexOf(range.basis)), 0);
  const source = [...new Set(known.map(range => range.source))].join('; ');
  return { ...feeds, surface_speed_m_min: speed, basis: rank[weakest]!, source };
}

function feedWindows(request: WindowRequest): Pick<Window, 'chip_load_mm' | 'feed_per_rev_mm'> {
  const { kind } = request;
  if (kind === 'tap' || kind === 'thread-turn') {
    const threads = absent('feed is the pitch of the thread');
    return { chip_load_mm: threads, feed_per_rev_mm: threads };
  }
  const teeth = isSinglePoint(kind) ? 1 : (request.teeth ?? (isDrill(kind) ? 2 : undefined));
  const found = statedFeed(request);
  const perRev = found === undefined ? isHoleTool(kind) || isSinglePoint(kind) : found.per === 'revolution';
  const raw = found?.range ?? handbookFeed(request);
  const range = isAbsent(raw) ? raw : narrow(raw, 'feed', request, perRev ? teeth : 1);
  return perRev
    ? { feed_per_rev_mm: range, chip_load_mm: scaled(range, teeth === undefined ? undefined : 1 / teeth) }
    : { chip_load_mm: range, feed_per_rev_mm: scaled(range, teeth) };
}

function speedWindow(request: WindowRequest): WindowRange | Absent {
  const range = statedSpeed(request) ?? handbookSpeed(request);
  return isAbsent(range) ? range : narrow(range, 'speed', request);
}

function isKnown(range: WindowRange | Absent): range is WindowRange {
  return !isAbsent(range);
}

function isDrill(kind: ToolKind): boolean {
  return kind === 'drill' || kind === 'spot-drill' || kind === 'center-drill';
}

function scaled(range: WindowRange | Absent, factor: number | undefined): WindowRange | Absent {
  if (isAbsent(range)) return range;
  if (factor === undefined) return absent('tooth count not known', ['teeth']);
  return { ...range, low: range.low * factor, high: range.high * factor };
}

/** Where a value sits against its window. */
export type Judgement = 'unknown' | 'inside' | 'below' | 'above' | 'far-below' | 'far-above';

/**
 * Where a value sits against a window: `far-below` under half the low end, `far-above` over 1.3 times the high end.
 * A value that is not a finite number is `unknown`. The ends count as inside, with one part in a million for rounding. Units: those of the window.
 */
export function judge(value: number, range: Pick<WindowRange, 'low' | 'high'>): Judgement {
  const slack = 1e-6;
  if (!Number.isFinite(value)) return 'unknown';
  if (value < range.low * (1 - slack)) return value < (range.low / 2) * (1 - slack) ? 'far-below' : 'below';
  if (value > range.high * (1 + slack)) return value > range.high * 1.3 * (1 + slack) ? 'far-above' : 'above';
  return 'inside';
}
