import { describePaths } from './path.ts';

/** Arcs: NISTIR 6556 section 3.5.3 and its successor (turns, G90.1), from memory. Counter-clockwise sweeps are positive about the third axis. */
describePaths('ngc: arcs', [
  {
    title: 'the four quarters, both ways',
    program: `G21 G90 G17 G0 X10 Y0 Z0
      G3 X0 Y10 I-10 J0 F100
      X-10 Y0 J-10
      G2 X0 Y10 I10
      X10 Y0 J-10`,
    moves: `rapid 10 0 0
      arc 0 10 0 90deg
      arc -10 0 0 90deg
      arc 0 10 0 -90deg
      arc 10 0 0 -90deg`,
  },
  {
    title: 'radius form: the short arc, the long arc, a half circle',
    program: `G21 G90 G17 G0 X0 Y0 Z0
      G2 X10 Y10 R10 F100
      G2 X0 Y0 R-10
      G3 X10 Y10 R10
      G3 X0 Y0 R-10
      G3 X20 Y0 R10`,
    moves: `rapid 0 0 0
      arc 10 10 0 -90deg
      arc 0 0 0 -270deg
      arc 10 10 0 90deg
      arc 0 0 0 270deg
      arc 20 0 0 180deg`,
  },
  {
    title: 'a long arc of a chord as long as the radius turns 300 degrees',
    program: `G21 G90 G17 G0 X0 Y0 Z0
      G2 X10 Y0 R-10 F100`,
    moves: `rapid 0 0 0
      arc 10 0 0 -300deg`,
  },
  {
    title: 'full circles and turns: P2 adds one',
    program: `G21 G90 G17 G0 X0 Y0 Z0
      G2 I5 F100
      G2 X0 Y0 I5 P2
      G3 X10 Z-5 I5 P3
      G3 X10 Z-6 I-5
      G3 X0 I-5 J0 P1`,
    moves: `rapid 0 0 0
      arc 0 0 0 -360deg
      arc 0 0 0 -720deg
      arc 10 0 -5 900deg
      arc 10 0 -6 360deg
      arc 0 0 -6 180deg`,
  },
  {
    title: 'centres as positions (G90.1), with a shift of G92, and back (G91.1)',
    program: `G21 G90 G17 G0 X1 Y1 Z0
      G92 X0 Y0
      G90.1 G2 X10 Y0 I5 J0 F100
      G91 G3 X-10 Y0 I5 J0
      G91.1 G90 G2 X10 Y0 I5 J0`,
    moves: `rapid 1 1 0
      arc 11 1 0 -180deg
      arc 1 1 0 180deg
      arc 11 1 0 -180deg`,
  },
  {
    title: 'G18: Z is the first axis, K and I are the centre',
    program: `G21 G90 G18 G0 X0 Y0 Z0
      G2 X10 Z10 K10 F100
      G3 X0 Z0 I0 K-10
      G3 X10 Z10 R10 Y3`,
    // From -180 degrees about (Z10, X0) to 90: clockwise 90; back about (Z0, X10), 0 to 270 degrees counter-clockwise.
    moves: `rapid 0 0 0
      arc 10 0 10 -90deg
      arc 0 0 0 270deg
      arc 10 3 10 90deg`,
  },
  {
    title: 'G19: Y is the first axis, J and K are the centre',
    program: `G21 G90 G19 G0 X0 Y10 Z0
      G3 Y0 Z10 J-10 F100
      G2 Y10 Z0 K-10
      G2 Z-10 Y0 R10 X5`,
    moves: `rapid 0 10 0
      arc 0 0 10 90deg
      arc 0 10 0 -90deg
      arc 5 0 -10 -90deg`,
  },
  {
    title: 'ends in increments; the centre is from the start of each',
    program: `G21 G91 G17 G0 X0 Y0 Z0
      G90 X5 Y5 Z0
      G91 G2 X2 Y2 I2 F100
      X2 Y-2 J-2
      G3 X2 Y-2 R2`,
    moves: `rapid - - -
      rapid 5 5 0
      arc 7 7 0 -90deg
      arc 9 5 0 -90deg
      arc 11 3 0 90deg`,
  },
  {
    title: 'what is no arc: no centre, a centre of the wrong axis, R to the start, R too short, R 0',
    program: `G21 G90 G17 G0 X0 Y0 Z0
      G2 X1 Y1 F100
      G2 X3 Y1 I1 K1
      G2 X3 Y1 R5
      G2 X13 Y1 R4
      G2 X14 Y1 R0`,
    moves: `rapid 0 0 0
      feed 1 1 0
      arc 3 1 0 -180deg
      feed 3 1 0
      feed 13 1 0
      feed 14 1 0`,
    problems: 'arc-centre-missing arc-centre-wrong-axis arc-ends-equal arc-radius-short arc-radius-zero',
  },
  {
    title: 'the end may lie off the circle by a thousandth of the radius, not by more',
    program: `G21 G90 G17 G0 X0 Y0 Z0
      G2 X20.008 Y0 I10 F100
      G0 X0
      G2 X20.03 Y0 I10`,
    moves: `rapid 0 0 0
      arc 20.008 0 0 -180deg
      rapid 0 0 0
      arc 20.03 0 0 -180deg`,
    problems: 'arc-end-off-circle',
  },
]);
