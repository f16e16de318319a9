import type { Rule } from '../../rule.ts';
import { engagementJump } from './engagement-jump.ts';
import { plungeAtFullFeed } from './plunge-at-full-feed.ts';
import { plungeNotCentreCutting } from './plunge-not-centre-cutting.ts';
import { rapidIntoStock } from './rapid-into-stock.ts';
import { rapidThroughStock } from './rapid-through-stock.ts';
import { chipThin, rubbing } from './rubbing.ts';

/** Rules about what the tool meets: stock, holder, jaws, loads and times. */
export const stockRules: readonly Rule[] = [
  chipThin,
  engagementJump,
  plungeAtFullFeed,
  plungeNotCentreCutting,
  rapidIntoStock,
  rapidThroughStock,
  rubbing,
];
