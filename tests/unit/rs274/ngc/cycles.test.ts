import { describePaths } from './path.ts';

/** Cycles: NISTIR 6556 section 3.5.16; the level of entry and repeats of its successor; the gap of 0.254 mm. From memory. */
describePaths('ngc: cycles in XY', [
  {
    title: 'below R the tool goes up first; G98 ends at R when the start was lower',
    program: `G21 G90 G17 G98 G0 X0 Y0 Z0
      G81 X5 Y5 Z-1 R2 F100
      X6
      G80
      G0 Z1.5
      G99 G81 X7 Z-1 R2`,
    moves: `rapid 0 0 0
      rapid 0 0 2
      rapid 5 5 2
      feed 5 5 -1
      rapid 5 5 2
      rapid 6 5 2
      feed 6 5 -1
      rapid 6 5 2
      rapid 6 5 1.5
      rapid 6 5 2
      rapid 7 5 2
      feed 7 5 -1
      rapid 7 5 2`,
  },
  {
    title: 'three holes in G99, then one in G98 to the level of entry',
    program: `G21 G90 G17 G0 X0 Y0 Z10
      G99 G81 X1 Z-1 R2 F100
      X2
      G98 X3
      X4`,
    moves: `rapid 0 0 10
      rapid 1 0 10
      rapid 1 0 2
      feed 1 0 -1
      rapid 1 0 2
      rapid 2 0 2
      feed 2 0 -1
      rapid 2 0 2
      rapid 3 0 2
      feed 3 0 -1
      rapid 3 0 10
      rapid 4 0 10
      rapid 4 0 2
      feed 4 0 -1
      rapid 4 0 10`,
  },
  {
    title: 'a motion code or G80 forgets the level of entry',
    program: `G21 G90 G17 G98 G0 X0 Y0 Z10
      G81 Z-1 R2 F100
      G0 Z5
      G81 Z-1 R2
      G80
      G0 Z3
      G82 Z-1 R2 P0`,
    moves: `rapid 0 0 10
      rapid 0 0 2
      feed 0 0 -1
      rapid 0 0 10
      rapid 0 0 5
      rapid 0 0 2
      feed 0 0 -1
      rapid 0 0 5
      rapid 0 0 3
      rapid 0 0 2
      feed 0 0 -1
      rapid 0 0 3`,
  },
  {
    title: 'the example of the report: G91 G81 X4 Y5 Z-0.6 R1.8 L3 in G98 from 1, 2, 3',
    // NISTIR 6556 section 3.5.16.1, second example: R level 3 + 1.8 = 4.8, bottom 4.2, clear 4.8.
    program: `G21 G90 G17 G0 X1 Y2 Z3
      G98 G91 G81 X4 Y5 Z-0.6 R1.8 L3 F100`,
    moves: `rapid 1 2 3
      rapid 1 2 4.8
      rapid 5 7 4.8
      feed 5 7 4.2
      rapid 5 7 4.8
      rapid 9 12 4.8
      feed 9 12 4.2
      rapid 9 12 4.8
      rapid 13 17 4.8
      feed 13 17 4.2
      rapid 13 17 4.8`,
  },
  {
    title: 'the first example of the report: G90 G81 G98 X4 Y5 Z1.5 R2.8 from 1, 2, 3',
    program: `G21 G90 G17 G0 X1 Y2 Z3
      G90 G81 G98 X4 Y5 Z1.5 R2.8 F100`,
    moves: `rapid 1 2 3
      rapid 4 5 3
      rapid 4 5 2.8
      feed 4 5 1.5
      rapid 4 5 3`,
  },
  {
    title: 'repeats in G90 drill the same hole',
    program: `G21 G90 G17 G0 X0 Y0 Z5
      G99 G81 X1 Z-1 R2 L2 F100`,
    moves: `rapid 0 0 5
      rapid 1 0 5
      rapid 1 0 2
      feed 1 0 -1
      rapid 1 0 2
      feed 1 0 -1
      rapid 1 0 2`,
  },
  {
    title: 'L is for its block only',
    program: `G21 G90 G17 G0 X0 Y0 Z2
      G99 G91 G81 X1 Z-3 R0 L2 F100
      X10`,
    moves: `rapid 0 0 2
      rapid 1 0 2
      feed 1 0 -1
      rapid 1 0 2
      rapid 2 0 2
      feed 2 0 -1
      rapid 2 0 2
      rapid 12 0 2
      feed 12 0 -1
      rapid 12 0 2`,
  },
  {
    title: 'pecks: back to R, and down to the gap above the last depth',
    program: `G21 G90 G17 G0 X0 Y0 Z5
      G99 G83 X1 Z-5 R1 Q2.5 F100
      G98 G73 X2 Z-4 R1 Q2.5`,
    moves: `rapid 0 0 5
      rapid 1 0 5
      rapid 1 0 1
      feed 1 0 -1.5
      rapid 1 0 1
      rapid 1 0 -1.246
      feed 1 0 -4
      rapid 1 0 1
      rapid 1 0 -3.746
      feed 1 0 -5
      rapid 1 0 1
      rapid 2 0 1
      feed 2 0 -1.5
      rapid 2 0 -1.246
      feed 2 0 -4
      rapid 2 0 5`,
  },
  {
    title: 'G82, G85, G86, G89: dwells and ways out',
    program: `G21 G90 G17 G0 X0 Y0 Z5 S100 M3
      G98 G82 X1 Z-1 R1 P0.5 F100
      G85 X2 Z-1 R1
      G86 X3 Z-1 R1 P0.25
      G89 X4 Z-1 R1 P1`,
    moves: `rapid 0 0 5
      rapid 1 0 5
      rapid 1 0 1
      feed 1 0 -1
      dwell 1 0 -1 0.5s
      rapid 1 0 5
      rapid 2 0 5
      rapid 2 0 1
      feed 2 0 -1
      feed 2 0 5
      rapid 3 0 5
      rapid 3 0 1
      feed 3 0 -1
      dwell 3 0 -1 0.25s
      rapid 3 0 5
      rapid 4 0 5
      rapid 4 0 1
      feed 4 0 -1
      dwell 4 0 -1 1s
      feed 4 0 5`,
  },
  {
    title: 'words stay while the number of the cycle stays; another one needs its own',
    program: `G21 G90 G17 G0 X0 Y0 Z2
      G99 G81 X1 Z-1 R2 F100
      Z-2
      G82 X3 P0`,
    moves: `rapid 0 0 2
      rapid 1 0 2
      feed 1 0 -1
      rapid 1 0 2
      feed 1 0 -2
      rapid 1 0 2`,
    problems: 'cycle-word-missing',
  },
  {
    title: 'errors: no R, R below the bottom, L0, inverse time, a rotary word',
    program: `G21 G90 G17 G0 X0 Y0 Z2 A0
      G81 X1 Z-1 F100
      G80
      G81 X1 Z-1 R2 L0
      G80
      G0 X0
      G81 X1 A5 Z-1 R2`,
    moves: `rapid 0 0 2 A0
      rapid 0 0 -
      rapid 1 0 -
      rapid 1 0 2
      feed 1 0 -1
      rapid 1 0 -`,
    problems:
      'cycle-word-missing cycle-position-unknown cycle-repeat-zero cycle-rotary-word cycle-position-unknown',
  },
]);

describePaths('ngc: cycles in other planes', [
  {
    title: 'G18: Y is the tool axis',
    program: `G21 G90 G18 G0 X0 Y10 Z0
      G98 G81 X1 Z2 Y-1 R2 F100
      G99 X3
      G80`,
    moves: `rapid 0 10 0
      rapid 1 10 2
      rapid 1 2 2
      feed 1 -1 2
      rapid 1 10 2
      rapid 3 10 2
      rapid 3 2 2
      feed 3 -1 2
      rapid 3 2 2`,
  },
  {
    title: 'G19 in increments: X is the tool axis',
    program: `G21 G90 G19 G0 X10 Y0 Z0
      G91 G98 G83 Y1 Z2 X-7 R-8 Q4 L2 F100`,
    // R level 2, bottom -5.
    moves: `rapid 10 0 0
      rapid 10 1 2
      rapid 2 1 2
      feed -2 1 2
      rapid 2 1 2
      rapid -1.746 1 2
      feed -5 1 2
      rapid 10 1 2
      rapid 10 2 4
      rapid 2 2 4
      feed -2 2 4
      rapid 2 2 4
      rapid -1.746 2 4
      feed -5 2 4
      rapid 10 2 4`,
  },
  {
    title: 'a shift of G92 counts for places and levels',
    program: `G21 G90 G17 G0 X0 Y0 Z10
      G92 X-5 Z8
      G98 G81 X0 Z-1 R2 F100
      G91 X1`,
    // X is 5 and Z 2 further: R level 4, bottom 1. In increments R counts from the level of entry: 10 + 2 = 12, bottom 11.
    moves: `rapid 0 0 10
      rapid 5 0 10
      rapid 5 0 4
      feed 5 0 1
      rapid 5 0 10
      rapid 5 0 12
      rapid 6 0 12
      feed 6 0 11
      rapid 6 0 12`,
  },
]);
