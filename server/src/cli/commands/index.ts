import type { Command } from '../command.ts';
import { check } from './check.ts';
import { moves } from './moves.ts';
import { review } from './review.ts';

/** The one table of commands. */
export const commands: readonly Command[] = [review, check, moves];
