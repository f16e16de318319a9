import { describePaths } from './path.ts';

/** Positions are those in the work offset, shifts of G52 and G92 added. NISTIR 6556 sections 3.5.5 to 3.5.18 and its successor, from memory. */
describePaths('ngc: shifts and offsets', [
  {
    title: 'G92, its suspension, restoring and clearing',
    program: `G21 G90 G0 X5 Y5 Z5
      G92 X1 Y2
      X0 Y0
      G92.2
      X1 Y1
      G92.3
      X0 Y0
      G92.1
      X0
      G92.3
      X0`,
    // The shift is 4, 3.
    moves: `rapid 5 5 5
      rapid 4 3 5
      rapid 1 1 5
      rapid 4 3 5
      rapid 0 3 5
      rapid 0 3 5`,
  },
  {
    title: 'a second G92 takes the place of the first',
    program: `G21 G90 G0 X10 Y0 Z0
      G92 X0
      X5
      G92 X100
      X90
      G92 Y3
      X100 Y3`,
    // Shifts along X: 10, then 15 - 100 = -85.
    moves: `rapid 10 0 0
      rapid 15 0 0
      rapid 5 0 0
      rapid 15 0 0`,
  },
  {
    title: 'G52 and G92 share one place',
    program: `G21 G90 G0 X0 Y0 Z0
      G52 X5
      X0
      G92.1
      X0
      G92 X10
      X0
      G52 X3
      X0
      G92.2
      X1
      G92.3
      X1
      G52 X0
      X1`,
    moves: `rapid 0 0 0
      rapid 5 0 0
      rapid 0 0 0
      rapid -10 0 0
      rapid 3 0 0
      rapid 1 0 0
      rapid 4 0 0
      rapid 1 0 0`,
  },
  {
    title: 'shifts count in absolute words only',
    program: `G21 G90 G0 X2 Y2 Z2
      G92 X0 Y0 Z0
      G91 X1 Y1
      G90 X1 Z1`,
    moves: `rapid 2 2 2
      rapid 3 3 2
      rapid 3 3 3`,
  },
  {
    title: 'a shift in inches holds in mm',
    program: `G20 G90 G0 X1 Y0 Z0
      G92 X0
      G21 X25.4
      G92 X0
      G20 X1`,
    moves: `rapid 25.4 0 0
      rapid 50.8 0 0
      rapid 76.2 0 0`,
  },
  {
    title: 'G10 L2 of the offset in force moves its zero under the tool',
    program: `G21 G90 G54
      G10 L2 P1 X0 Y0 Z0
      G0 X10 Y10 Z10
      G10 L2 P1 X1 Y-1
      X10
      G10 L2 P0 Z4
      X11`,
    // Machine position stays: 10, 10 becomes 9, 11; Z10 becomes 6.
    moves: `rapid 10 10 10
      rapid 10 11 10
      rapid 11 11 6`,
  },
  {
    title: 'G10 L20 makes the present point the words, in any offset that is known',
    program: `G21 G90 G54 G10 L2 P1 X0 Y0 Z0
      G0 X10 Y20 Z30
      G10 L20 P1 X1 Y2
      X5
      G10 L20 P2 X0 Y0 Z0
      G55 X1`,
    moves: `rapid 10 20 30
      rapid 5 2 30
      rapid 1 - -`,
  },
  {
    title: 'another offset: the point has other coordinates there',
    program: `G21 G90 G54
      G10 L2 P1 X10 Y10 Z0
      G10 L2 P2 X30 Y0 Z-5
      G0 X0 Y0 Z0
      G55 X0
      G59.3 X1
      G55 Y1`,
    // From machine 10, 10, 0 to machine X30: Y10 and Z5 in G55.
    moves: `rapid 0 0 0
      rapid 0 10 5
      rapid 1 - -
      rapid - 1 -`,
  },
  {
    title: 'G53 leaves all offsets and shifts out',
    program: `G21 G90 G54 G10 L2 P1 X10 Y20 Z30
      G0 X0 Y0 Z0
      G92 X5
      G53 X0
      X0
      G53 G1 Y20 F100
      X1`,
    // G92 shifts by -5; machine X0 is -10 in G54; after it X0 is -5.
    moves: `rapid 0 0 0
      rapid 0 - -
      rapid -5 0 0
      feed - 20 -
      feed -4 0 0`,
  },
  {
    title: 'G28 and G30: through the point of the words to a place the program does not tell',
    program: `G21 G90 G0 X1 Y1 Z1
      G28 Z5
      X2
      G28
      X0 Y0 Z0
      G91 G30 X1 Y0
      G90 X3`,
    moves: `rapid 1 1 1
      rapid 1 1 5
      home 1 1 -
      rapid 2 1 -
      home - - -
      rapid 0 0 0
      rapid 1 0 0
      home - - 0
      rapid 3 - 0`,
  },
  {
    title: 'tool length in words, added and taken off',
    program: `G21 G90 G0 X0 Y0 Z10
      G43.1 Z2
      X5
      G91 Z1
      G90 G43.2 Z3
      X6
      G49
      X7
      G43.1 X1 Z1
      X0`,
    moves: `rapid 0 0 10
      rapid 5 0 8
      rapid 5 0 9
      rapid 6 0 6
      rapid 7 0 11
      rapid 0 0 10`,
  },
  {
    title: 'tool length from the table stands in the control: positions are taken to stay',
    program: `G21 G90 G0 X0 Y0 Z10
      T3 M6
      G43
      X5
      G43 H7
      X6
      Z0
      G43.2 Z1
      X7
      Z2`,
    moves: `rapid 0 0 10
      toolchange 0 0 10
      rapid 5 0 10
      rapid 6 0 10
      rapid 6 0 0
      rapid 7 0 -
      rapid 7 0 2`,
  },
]);

describePaths('ngc: polar words', [
  {
    title: '@ is the distance from zero, ^ the angle; the other one stays',
    program: `G21 G90 G0 X10 Y0 Z0
      G1 @10 ^90 F100
      ^180
      @5
      @20^-90Z1`,
    moves: `rapid 10 0 0
      feed 0 10 0
      feed -10 0 0
      feed -5 0 0
      feed 0 -20 1`,
  },
  {
    title: 'in G91 they add to the distance and the angle',
    program: `G21 G90 G0 X0 Y5
      G91 G1 @5 ^90 F100
      ^-90
      @-3`,
    moves: `rapid 0 5 -
      feed -10 0 -
      feed 0 10 -
      feed 0 7 -`,
  },
  {
    title: 'from a zero that G92 has shifted, in arcs, holes and expressions',
    program: `G21 G90 G0 X3 Y4 Z5
      G92 X0 Y0
      G0 @10 ^0
      G3 @10 ^90 I-10 J0 F100
      #1=5
      G81 @#1 ^[30*6] Z-1 R1
      G80`,
    moves: `rapid 3 4 5
      rapid 13 4 5
      arc 3 14 5 90deg
      rapid -2 4 5
      rapid -2 4 1
      feed -2 4 -1
      rapid -2 4 5`,
  },
  {
    title: 'beside an X word they are an error',
    program: `G21 G90 G0 X1 Y0
      @1 X1`,
    moves: `rapid 1 0 -
      rapid 1 0 -`,
    problems: 'letter-repeated',
  },
]);
