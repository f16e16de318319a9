import { describePaths } from './path.ts';

/** Order of execution and assignment timing: NISTIR 6556 section 3.8 table 8 and 3.3.2.2, from memory. */
describePaths('ngc: order of execution and timing of settings', [
  {
    title: 'a dwell in a block with motion comes first and takes none of its axis words',
    program: `G21 G90 G0 X0 Y0 Z0
      G1 X10 G4 P1 F100
      G4 P0.5 X20
      G4 P2`,
    moves: `rapid 0 0 0
      dwell 0 0 0 1s
      feed 10 0 0
      dwell 10 0 0 0.5s
      feed 20 0 0
      dwell 20 0 0 2s`,
  },
  {
    title: 'units and distance mode of a block count for its own words',
    program: `G21 G90 G0 X1 Y1 Z0
      G20 X1
      X1 G91
      G21 Y2.5
      G90 X0`,
    moves: `rapid 1 1 0
      rapid 25.4 1 0
      rapid 50.8 1 0
      rapid 50.8 3.5 0
      rapid 0 3.5 0`,
  },
  {
    title: 'a plane in an arc block counts for it, wherever it stands',
    program: `G21 G90 G17 G0 X0 Y0 Z0
      G3 X10 Z10 I10 K0 G18 F100`,
    moves: `rapid 0 0 0
      arc 10 0 10 90deg`,
  },
  {
    title: 'G53 is for one block and changes the motion mode',
    program: `G21 G90 G10 L2 P1 X10 Y20 Z30
      G0 X0 Y0 Z0
      G53 G1 X0 F100
      X5`,
    moves: `rapid 0 0 0
      feed 0 - -
      feed 5 0 0`,
  },
  {
    title: 'the values of a block are read before its settings act',
    program: `#3=15
      #3=6 G0 X#3
      X#3
      #1=5 #2=[#1+1]
      X#1 Y#2
      #2=[#1+1]
      Y#2
      #10=1 #10=2
      X#10`,
    moves: `rapid 15 - -
      rapid 6 - -
      rapid 5 1 -
      rapid 5 6 -
      rapid 2 6 -`,
  },
  {
    title: 'a counter on its own line and its use on the next',
    program: `#1=0
      #1=[#1+1] G0 X#1
      #1=[#1+1] X#1
      X#1`,
    moves: `rapid 0 - -
      rapid 1 - -
      rapid 2 - -`,
  },
  {
    title: 'the end of a program comes after the motion of its block',
    program: `G21 G90 G0 X0
      X5 M2
      X9`,
    moves: `rapid 0 - -
      rapid 5 - -`,
  },
  {
    title: '(ABORT,) ends the program before the rest of its block',
    program: `G0 X1
      o1 if [#7 GT 0]
        (ABORT, too deep)
      o1 endif
      X2
      X3 (abort, this time)
      X4`,
    moves: `rapid 1 - -
      rapid 2 - -`,
    problems: 'program-alarm',
  },
  {
    title: 'blanks, case and N with a fraction mean nothing',
    program: `g21 g9 0 g0x+0. 12 34 y 7(one)z.5
      n10.5 g 1 x 3 . 5 y+.5 f100 ;two
      N99999G0X-.0`,
    moves: `rapid 0.1234 7 0.5
      feed 3.5 0.5 0.5
      rapid 0 0.5 0.5`,
  },
  {
    title: 'text between the second % and the end is not read',
    program: `%
      G0 X1
      %
      G0 X2`,
    moves: 'rapid 1 - -',
  },
]);

describePaths('ngc: modes saved and inputs', [
  {
    title: 'M73 brings the modes of the caller back at the return',
    program: `G21 G90 G17 G0 X0 Y0 Z0 F100
      o<shift> sub
        M73
        G91 G18 G20
        G1 X1
      o<shift> endsub
      o<shift> call
      G1 X10
      G2 X0 Y0 I-5`,
    moves: `rapid 0 0 0
      feed 25.4 0 0
      feed 10 0 0
      arc 0 0 0 -180deg`,
  },
  {
    title: 'M70 and M72 in one level, M71 forgets',
    program: `G21 G90 G0 X1
      M70
      G91 G20
      M72
      X5
      M71
      M72`,
    moves: `rapid 1 - -
      rapid 5 - -`,
    problems: 'modes-not-saved',
  },
  {
    title: 'inputs and outputs do not move, and what an input gives is not known',
    program: `G21 G90 G0 X1 Y1 Z1
      M62 P1
      M67 E0 Q1.5
      M66 P0 L3 Q1
      X#5399
      X2`,
    moves: `rapid 1 1 1
      rapid - 1 1
      rapid 2 1 1`,
    problems: 'value-not-known',
  },
]);
