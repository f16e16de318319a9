import type { Command } from '../command.ts';
import { check } from './check.ts';
import { moves } from './moves.ts';
import { proveout } from './proveout.ts';
import { review } from './review.ts';

/** The one table of commands. */
export const commands: readonly Command[] = [review, check, proveout, moves];
