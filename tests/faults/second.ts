import { readFileSync } from 'node:fs';
import type { Fault } from './fault.ts';

interface Row extends Omit<Fault, 'family' | 'name' | 'cut'> {
  kind: string;
}

/** Faults of the second set of programs that are caught, with the codes that said so; names in the row, not by family. */
export function secondFaults(): Fault[] {
  const rows: Row[] = JSON.parse(readFileSync(new URL('./second.json', import.meta.url), 'utf8'));
  return rows.map(({ kind, ...row }) => ({ ...row, family: 'geometry', name: kind, cut: true }));
}
