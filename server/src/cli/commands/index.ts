import type { Command } from '../command.ts';
import { check } from './check.ts';
import { explain } from './explain.ts';
import { moves } from './moves.ts';
import { proveout } from './proveout.ts';
import { review } from './review.ts';
import { setup } from './setup.ts';

/** The one table of commands. */
export const commands: readonly Command[] = [review, check, proveout, setup, explain, moves];
