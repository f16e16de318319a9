import type { Rule } from '../../rule.ts';
import { rapidIntoStock } from './rapid-into-stock.ts';
import { rapidThroughStock } from './rapid-through-stock.ts';

/** Rules about what the tool meets: stock, holder, jaws, loads and times. */
export const stockRules: readonly Rule[] = [rapidIntoStock, rapidThroughStock];
