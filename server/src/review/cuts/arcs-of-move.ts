import type { MoveFigures } from '../../stock/figures.ts';

/** Engagement whose mean stands near its greatest is steady along the move. */
const STEADY_SHARE = 0.9;
/** Ends further apart than the arc by more than this, in degrees: the arc is broken. */
const BROKEN_DEG = 1;

/** True when the engagement of a move stands near its greatest wherever it cuts. */
export function isSteady(figures: MoveFigures): boolean {
  return figures.mean_engagement_deg >= STEADY_SHARE * figures.engagement_deg;
}

/** The figures of a move at the arcs that stand for it: as they are where the arc is steady, else at the greatest and at the least one. */
export function arcsOfMove(figures: MoveFigures): MoveFigures[] {
  if (isSteady(figures)) return [figures];
  const least = {
    ...figures,
    engagement_deg: figures.least_engagement_deg,
    entry_deg: figures.least_entry_deg,
    exit_deg: figures.least_exit_deg,
    axial_depth_mm: Math.min(figures.axial_depth_mm, figures.least_depth_mm),
  };
  return [figures, least].map(arc => ({ ...arc, climb_share: climbOf(arc) }));
}

/** Share of one arc that lies right of the feed; of a broken arc that of the whole move. */
function climbOf({ entry_deg, exit_deg, engagement_deg, climb_share }: MoveFigures): number {
  const span = exit_deg - entry_deg;
  if (!(Math.abs(span - engagement_deg) <= BROKEN_DEG) || !(span > 0)) return climb_share;
  return Math.max(0, exit_deg - Math.max(90, entry_deg)) / span;
}
