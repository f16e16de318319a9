import type { Dialect, MachineKind } from './codes/shape.ts';
import type { Evidence } from './evidence.ts';
import type { Hints, Item } from './settled-item.ts';

/** Mill or lathe: what is given, else what fits only one, else what is likelier. */
export function settleKind(e: Evidence, hints: Hints): Item<MachineKind> {
  if (hints.kind !== undefined)
    return { value: hints.kind, how: 'given', why: 'from the setup sheet or the machine' };
  if (hints.dialect?.startsWith('lathe') === true) {
    return { value: 'lathe', how: 'given', why: 'the dialect given is a lathe code system' };
  }
  if (hints.dialect === 'iso6983')
    return { value: 'mill', how: 'given', why: 'the dialect given is that of mills' };
  const lathe = latheSigns(e);
  const mill = millSigns(e);
  if (lathe.length > 0 && mill.length === 0)
    return { value: 'lathe', how: 'only-fit', why: lathe.join(', ') };
  if (mill.length > 0 && lathe.length === 0) return { value: 'mill', how: 'only-fit', why: mill.join(', ') };
  if (lathe.length > mill.length) return { value: 'lathe', how: 'likely', why: lathe.join(', ') };
  if (mill.length > 0) return { value: 'mill', how: 'likely', why: mill.join(', ') };
  if (e.has('X') && !e.has('Y') && e.has('Z') && e.hasG(18)) {
    return { value: 'lathe', how: 'likely', why: 'X and Z words in G18 and no Y' };
  }
  return { value: 'mill', how: 'unknown', why: 'nothing tells mill from lathe; read as a mill' };
}

function latheSigns(e: Evidence): string[] {
  const signs: string[] = [];
  if (e.long_tools > 0 && e.mCount(6) < e.long_tools) signs.push('tool words like T0101');
  if (e.hasG(96)) signs.push('constant surface speed (G96)');
  if (e.clamps_g50 > 0) signs.push('speed clamp by G50 S');
  if (e.hasG(7, 8) && !e.has('Y')) signs.push('G7 or G8');
  if (e.profile_cycles > 0) signs.push('roughing cycles with P and Q');
  if (e.has('U', 'W') && !e.has('Y') && !e.has('V')) signs.push('U and W increments');
  return signs;
}

function millSigns(e: Evidence): string[] {
  const signs: string[] = [];
  if (e.has('Y')) signs.push('Y words');
  if (e.hasG(43, 43.1, 44) && e.has('H')) signs.push('tool length offset (G43 H)');
  if (e.hasG(17)) signs.push('XY plane (G17)');
  if (e.hasG(73, 81, 82) && e.profile_cycles === 0) signs.push('drilling cycles');
  return signs;
}

/** The dialect: what is given, else what only one dialect has, else what is likeliest for the kind of machine. */
export function settleDialect(e: Evidence, kind: Item<MachineKind>, hints: Hints): Item<Dialect> {
  if (hints.dialect !== undefined)
    return { value: hints.dialect, how: 'given', why: 'from the setup sheet or the machine' };
  const report = reportSigns(e, kind.value);
  if (report.length > 0) return { value: 'ngc', how: 'only-fit', why: report.join(', ') };
  if (kind.value === 'mill') return { value: 'iso6983', how: 'likely', why: 'word-address mill program' };
  return latheSystem(e);
}

function reportSigns(e: Evidence, kind: MachineKind): string[] {
  const signs: string[] = [];
  if (e.o_flow > 0) signs.push('flow control by O words');
  if (e.named_parameters > 0) signs.push('named parameters');
  if (e.hasG(38.2, 38.3, 38.4, 38.5)) signs.push('straight probe (G38)');
  if (e.hasG(33.1)) signs.push('rigid tap G33.1');
  if (e.hasG(59.1, 59.2, 59.3, 92.2, 92.3, 41.1, 42.1, 43.1, 5.2, 5.3, 28.1, 30.1))
    signs.push('codes that only this dialect has');
  if (e.surface_speed_with_d > 0) signs.push('G96 with D');
  if (kind === 'lathe' && e.hasG(7, 8)) signs.push('G7 and G8');
  if (kind === 'mill' && e.hasG(91.1) && e.hasG(64)) signs.push('G91.1 and G64');
  return signs;
}

function latheSystem(e: Evidence): Item<Dialect> {
  // G20 and G21 are its turning and threading cycles, so they may stand further on
  if (e.hasG(24) || e.first_unit === 70 || e.first_unit === 71) {
    return { value: 'lathe-c', how: 'likely', why: 'G24, or G70/G71 as units' };
  }
  if (e.hasG(77, 78, 79) || (e.clamps_g92 > 0 && e.hasG(95))) {
    return { value: 'lathe-b', how: 'likely', why: 'G77 to G79, or G92 S with G95' };
  }
  if (e.hasG(95) && !e.hasG(98, 99) && !e.has('U', 'W') && e.clamps_g50 === 0) {
    return { value: 'lathe-b', how: 'likely', why: 'feed per revolution by G95' };
  }
  const a = e.hasG(99) || e.clamps_g50 > 0 || e.has('U', 'W') || e.profile_cycles > 0;
  return {
    value: 'lathe-a',
    how: a ? 'likely' : 'unknown',
    why: a ? 'G99, G50 S, U and W' : 'the commonest lathe code system',
  };
}
