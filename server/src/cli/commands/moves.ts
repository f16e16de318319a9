import { moves as eachMove } from '../../report/moves.ts';
import { UsageError } from '../arguments.ts';
import type { Command } from '../command.ts';
import { load } from '../load.ts';
import { writeResult } from '../output.ts';
import { exitCode } from './review.ts';

const PIECE = 2000;

export const moves: Command = {
  name: 'moves',
  takes: 'PROGRAM',
  does: 'the executed motion as JSON lines, cycles and subprograms expanded, in execution order',
  options: [],
  async run(args) {
    const [path, ...more] = args.positionals;
    if (path === undefined || more.length > 0) throw new UsageError('moves takes one program');
    const loaded = await load(path, args);
    let lines: string[] = [];
    eachMove(loaded.review.program, move => {
      lines.push(JSON.stringify(move));
      if (lines.length >= PIECE) {
        writeResult(`${lines.join('\n')}\n`);
        lines = [];
      }
    });
    if (lines.length > 0) writeResult(`${lines.join('\n')}\n`);
    return exitCode(loaded);
  },
};
