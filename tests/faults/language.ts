import type { Fault } from './fault.ts';

const f = (name: string, job: string, from: string, to: string, ...codes: string[]): Fault => ({
  family: 'language',
  name,
  job,
  from,
  to,
  codes,
});

/** What a control would reject, and what cannot be read. */
export const LANGUAGE_FAULTS: readonly Fault[] = [
  f('letter O for zero in G', 'bracket', 'G0 Z1. M9', 'GO Z1. M9', 'letter-o-for-zero'),
  f('letter O in a number', 'bracket', 'X3.75\nG2', 'X3.7O\nG2', 'letter-o-for-zero', 'number-unreadable'),
  f('two points in a number', 'valve', 'X55. F340.', 'X5.5. F340.', 'number-unreadable'),
  f('word without a number', 'valve', 'N150 X55. F340.', 'N150 X F340.', 'number-unreadable'),
  f('two signs', 'valve', 'Y-20.', 'Y--20.', 'number-unreadable'),
  f('blank left to fill in', 'manifold', 'X3.25\nX4.25', 'X___\nX4.25', 'number-blank'),
  f('two motions in a block', 'bracket', 'G0 Z1. M9', 'G0 G1 Z1. M9', 'group-conflict'),
  f('two planes in a block', 'valve', 'G21 G17 G40', 'G21 G17 G18 G40', 'group-conflict'),
  f('a letter twice', 'valve', 'N150 X55. F340.', 'N150 X55. X60. F340.', 'letter-repeated'),
  f('unknown G code', 'spacer', 'G40 G49 G80 G90 G94', 'G40 G49 G80 G90 G94 G99.9', 'code-unknown'),
  f('text outside a comment', 'flange', '(BORE 40 H7)', 'BORE TO 40 H7 HERE', 'text-outside-comment'),
  f(
    'arc end off its circle',
    'bracket',
    'G2 X4. Y2.75 I0. J-.25',
    'G2 X4. Y2.57 I0. J-.25',
    'arc-misses-end',
  ),
  f('arc radius too short', 'bracket', 'G2 X.25 Y3.08 R.33', 'G2 X.25 Y3.08 R.13', 'arc-misses-end'),
  f('arc without centre', 'bracket', 'G2 X4. Y2.75 I0. J-.25', 'G2 X4. Y2.75', 'arc-misses-end'),
  f('feed missing at all', 'spacer', 'G1 X92. F330.', 'G1 X92.', 'no-feed'),
  f('feed zero', 'spacer', 'G1 X92. F330.', 'G1 X92. F0', 'no-feed'),
  f('negative feed', 'spacer', 'F330.', 'F-330.', 'value-impossible', 'no-feed'),
  f('dwell without a time', 'spacer', 'M5\nG91', 'G4\nM5\nG91', 'dwell-without-time'),
  f('cycle without its peck', 'valve', 'R2. Q7. F90.', 'R2. F90.', 'cycle-incomplete'),
  f('cycle without R', 'manifold', 'G99 G81', 'G99 G81', 'cycle-incomplete'),
  f('no end of the program', 'bracket', 'G90\nM30', 'G90', 'program-end-missing'),
  f('profile of a cycle not found', 'bushing', 'G71 P100 Q150', 'G71 P100 Q190', 'cycle-incomplete'),
  f('called program not found', 'flange', 'M98 P3221 L3', 'M98 P3222 L3', 'subprogram-missing'),
  { ...f('loop not closed', 'plate', '  o110 endwhile\n', '', 'flow-unmatched'), near: 'o110 while' },
  f('bracket not closed', 'plate', 'G0 X[20 + 25 * #5] Y#1', 'G0 X[20 + 25 * #5 Y#1', 'expression-bad'),
  f(
    'function nobody knows',
    'plate',
    'X[20 + 25 * #5] Y#1\n',
    'X[20 + 25 * ASB[#5]] Y#1\n',
    'expression-bad',
  ),
  f('endless loop', 'plate', '#5 = [#5 + 1]', '#5 = [#5 + 0]', 'never-ends'),
  f('thread lead missing', 'stud', 'P920 Q250 F1.5', 'P920 Q250', 'thread-lead-mismatch'),
].filter(fault => fault.from !== fault.to);
