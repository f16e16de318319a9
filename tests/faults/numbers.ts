import type { Fault } from './fault.ts';

const f = (name: string, job: string, from: string, to: string, ...codes: string[]): Fault => ({
  family: 'numbers',
  name,
  job,
  from,
  to,
  codes,
});

/** Points, digits and signs. */
export const NUMBER_FAULTS: readonly Fault[] = [
  f('comma for a point', 'bracket', 'X3.75\nG2', 'X3,75\nG2', 'number-comma'),
  f('point lost on a least-increment control', 'spacer', 'G1 X68. F310.', 'G1 X68 F310.', 'point-missing'),
  f('point lost in a hole position', 'spacer', 'X48.\nY32.', 'X48\nY32.', 'point-missing'),
  f('point lost in a retract', 'spacer', 'G43 H2 Z30. M8', 'G43 H2 Z30 M8', 'point-missing'),
  f('point lost, inch', 'bracket', 'G1 X3.75\nG2', 'G1 X375\nG2', 'arc-misses-end', 'value-ten-times'),
  f(
    'point moved by one place',
    'bracket',
    'G1 X3.75\nG2 X4.08',
    'G1 X37.5\nG2 X4.08',
    'arc-misses-end',
    'value-ten-times',
  ),
  f(
    'digit lost before an arc',
    'bracket',
    'Y2.75\nG2 X.25 Y3. R.25',
    'Y2.5\nG2 X.25 Y3. R.25',
    'arc-misses-end',
  ),
  f('digit lost in an arc centre', 'bracket', 'I-.25 J0.', 'I-.5 J0.', 'arc-misses-end'),
  f('minus of Z lost, milling', 'valve', 'N140 G1 Z-2.', 'N140 G1 Z3.', 'z-sign-flipped'),
  f('minus of Z lost, inch', 'bracket', 'G1 Z-.25 F30.', 'G1 Z.25 F30.', 'z-sign-flipped'),
  f('minus of Z lost, drilling', 'bracket', 'G83 Z-.75', 'G83 Z.75', 'cycle-r-below-z'),
  f('minus of Z lost, tapping', 'valve', 'G84 Z-16.', 'G84 Z16.', 'cycle-r-below-z'),
  f('feed ten times', 'bracket', 'Y-.1 F72.', 'Y-.1 F720.', 'chip-load-high', 'feed-over-machine'),
  f('feed point lost', 'spacer', 'G1 X68. F310.', 'G1 X68. F3100.', 'chip-load-high'),
  f('speed ten times', 'valve', 'S2120', 'S21200', 'speed-over-machine', 'surface-speed-high'),
  f('turning feed ten times', 'bushing', 'W0.1 F0.25', 'W0.1 F2.5', 'chip-load-high'),
  f(
    'turning feed a hundred times',
    'stud',
    'Z-40. F0.25',
    'Z-40. F25',
    'chip-load-high',
    'feed-mode-left-on',
    'feed-over-machine',
  ),
  f('digit lost in a tapping feed', 'valve', 'R5. F300.', 'R5. F30.', 'tap-feed-mismatch'),
  f('dwell a thousand times too long', 'plate', 'G64 P0.02\n', 'G64 P0.02\n', 'dwell-long-in-cycle'),
].filter(fault => fault.from !== fault.to);
