import type { Block } from './block.ts';
import type { BlockCodes } from './block-codes.ts';
import { compensate } from './execute-compensation-mode.ts';
import type { Machine } from './machine.ts';
import { S } from './state.ts';

/** Units, plane, distance and the other codes that only change how later words are read. */
export function executeModes(machine: Machine, block: Block, codes: BlockCodes): void {
  const { v } = machine.state;
  for (let i = 0; i < codes.rows.length; i += 1) {
    const row = codes.rows[i];
    switch (row.effect) {
      case 'inch':
        v[S.inch] = 1;
        break;
      case 'millimetre':
        v[S.inch] = 0;
        break;
      case 'diameter-words':
        v[S.diameter] = 1;
        break;
      case 'radius-words':
        v[S.diameter] = 0;
        break;
      case 'plane':
        v[S.plane] = row.number;
        break;
      case 'absolute':
        v[S.distance] = 90;
        break;
      case 'incremental':
        v[S.distance] = 91;
        break;
      case 'arc-centre-absolute':
        v[S.arc_absolute] = 1;
        break;
      case 'arc-centre-incremental':
        v[S.arc_absolute] = 0;
        break;
      case 'return-initial':
        v[S.return_level] = 98;
        break;
      case 'return-r':
        v[S.return_level] = 99;
        break;
      case 'path-control':
        v[S.path_mode] = Math.round(row.number * 10);
        break;
      case 'polar-on':
        v[S.polar] = 1;
        break;
      case 'polar-off':
        v[S.polar] = 0;
        break;
      case 'compensation-off':
        v[S.compensation] = 40;
        break;
      case 'compensation-left':
      case 'compensation-left-given':
        compensate(machine, block, 41, row.effect === 'compensation-left-given');
        break;
      case 'compensation-right':
      case 'compensation-right-given':
        compensate(machine, block, 42, row.effect === 'compensation-right-given');
        break;
      default:
        break;
    }
  }
}
