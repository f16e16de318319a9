import type { Known } from './known.ts';
import type { CribMachine, Machine } from './machine-keys.ts';
import type { Crib, SetupSheet } from './sheet.ts';

/** The machine a program runs on, as far as it is known. */
export type MachineKnown = {
  machine: CribMachine | undefined;
  name: string | undefined;
  /** The crib it stands in, for its standing tools. */
  crib: Crib | undefined;
  how: 'sheet' | 'named' | 'asked-for' | 'only-one' | 'unknown';
  /** Something a person should settle, in words, with the names to choose from. */
  question: { why: string; choices: string[] } | undefined;
};

/**
 * The machine: written out in the sheet, named there, named by the caller (a setting), or the only machine of the nearest
 * crib that has any and fits the kind. With several it asks and takes none.
 */
export function machineOf(
  sheet: SetupSheet | undefined,
  cribs: readonly Crib[],
  wanted: { name?: string | undefined; kind?: 'mill' | 'lathe' | undefined } = {},
): MachineKnown {
  const none = { machine: undefined, name: undefined, crib: undefined, question: undefined };
  const stated = sheet?.machine;
  if (stated && 'here' in stated) return { ...none, machine: stated.here, how: 'sheet' };
  const name = stated && 'named' in stated ? stated.named.value : wanted.name;
  if (name !== undefined) {
    const found = findByName(cribs, name);
    if (found) return { ...none, ...found, name, how: stated ? 'named' : 'asked-for' };
    const choices = cribs.flatMap(({ machines }) => [...(machines?.keys() ?? [])]);
    return {
      ...none,
      name,
      how: 'unknown',
      question: { why: `no machine "${name.slice(0, 60)}" in the crib`, choices },
    };
  }
  const crib = cribs.find(({ machines }) => machines && machines.size > 0);
  const fitting = [...(crib?.machines ?? [])].filter(
    ([, { kind }]) => !kind || !wanted.kind || kind.value === wanted.kind,
  );
  const [first, second] = fitting;
  if (first && !second) return { ...none, machine: first[1], name: first[0], crib, how: 'only-one' };
  if (!second) return { ...none, how: 'unknown' };
  return {
    ...none,
    how: 'unknown',
    question: { why: 'the crib has several machines', choices: fitting.map(([key]) => key) },
  };
}

function findByName(cribs: readonly Crib[], name: string): { machine: CribMachine; crib: Crib } | undefined {
  for (const crib of cribs) {
    const machine = crib.machines?.get(name);
    if (machine) return { machine, crib };
  }
  return undefined;
}

/** The value of a curve over spindle speed (power in kW, torque in N m): straight between pairs, level outside. */
export function curveAt(
  curve: Known<readonly (readonly [number, number])[]>,
  spindle_rpm: number,
): number | undefined {
  const pairs = curve.value;
  const after = pairs.findIndex(([rpm]) => rpm >= spindle_rpm);
  if (after <= 0) return (after === 0 ? pairs[0] : pairs.at(-1))?.[1];
  const [low, high] = [pairs[after - 1], pairs[after]];
  if (!low || !high) return undefined;
  return low[1] + ((high[1] - low[1]) * (spindle_rpm - low[0])) / (high[0] - low[0]);
}

export type { Machine };
