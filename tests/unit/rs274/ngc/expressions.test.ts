import { describePaths } from './path.ts';

/** Expressions as words: NISTIR 6556 section 3.3.2.3 to .5 and its successor, from memory. */
describePaths('ngc: expressions in words', [
  {
    title: 'strength of operators; the same strength from left to right',
    program: `G0 X[2**3**2] Y[2+3*4] Z[10/4*2]
      X[1+2 EQ 3] Y[1 OR 0 AND 0] Z[2 GT 1 AND 0]
      X[2 - 3 - 4] Y[2 XOR 2] Z[5 MOD 3]`,
    // AND and OR are of one strength: [1 OR 0] AND 0 = 0.
    moves: `rapid 64 14 5
      rapid 1 0 0
      rapid -5 0 2`,
  },
  {
    title: 'a sign belongs to the number, not to the power',
    program: `G0 X[-2**2] Y-[2**2] Z[- 3 + 5]
      #1=2
      X-#1 Y+#1 Z-[#1*2]`,
    moves: `rapid 4 -4 2
      rapid -2 2 -4`,
  },
  {
    title: 'functions stand behind a letter without brackets around them',
    program: `G0 X FIX[-2.8] Y FUP[-2.8] Z ROUND[-2.5]
      XATAN[1]/[-1] YATAN[-1]/[0] ZSQRT[3**2+4**2]
      X ABS[-3] Y EXP[0] Z LN[1]
      x acos[0] y asin[1] z tan[45]
      X COS[60] Y -SIN[30] Z2`,
    moves: `rapid -3 -2 -3
      rapid 135 -90 5
      rapid 3 1 0
      rapid 90 90 1
      rapid 0.5 -0.5 2`,
  },
  {
    title: 'the remainder is never negative',
    program: 'G0 X[-7 MOD 3] Y[7 MOD -3] Z[7.5 MOD 2]',
    moves: 'rapid 2 1 1.5',
  },
  {
    title: 'equal is within 0.0001, less and greater are exact',
    program: 'G0 X[1.00005 EQ 1] Y[1.00005 NE 1] Z[1.00005 GT 1]',
    moves: 'rapid 1 0 1',
  },
  {
    title: 'numbers of parameters can be worked out',
    program: `#3=7 #7=9
      G0 X##3 Y#[1+2] Z#[#3]
      #[2+2]=11
      X#4
      #1=3
      X[#1+2]
      X#1`,
    moves: `rapid 9 7 9
      rapid 11 7 9
      rapid 5 7 9
      rapid 3 7 9`,
  },
  {
    title: 'codes can be worked out too',
    program: `#1=1
      G[#1-1] X1
      G#1 X2 F[50*2]
      G[80+1] X3 Z-1 R1`,
    moves: `rapid 1 - -
      feed 2 - -
      rapid 3 - -
      rapid 3 - 1
      feed 3 - -1
      rapid 3 - -`,
    problems: 'cycle-position-unknown',
  },
  {
    title: 'names: case and blanks mean nothing, _ is for all levels',
    program: `#<Foo Bar>=3 #<_all>=4
      o<look> sub
        G0 Y#<_ALL> Z[EXISTS[#<foobar>]]
        #<foobar>=8
      o<look> endsub
      G0 X#<foobar>
      o<look> call
      X[#<FOO BAR>+1] Z[EXISTS[#<_all>]]`,
    moves: `rapid 3 - -
      rapid 3 4 0
      rapid 4 4 1`,
  },
  {
    title: 'a name without a value is an error, a number without one is 0',
    program: `G0 X#77 Y1
      X#<nope>
      X2`,
    moves: `rapid 0 1 -
      rapid - 1 -
      rapid 2 1 -`,
    problems: 'parameter-not-set',
  },
  {
    title: '#5420 to #5422 and #<_x> are the position in the units of the program',
    program: `G21 G90 G0 X25.4 Y10 Z5
      G20
      X[#5420*2] Y[#<_y>+1]
      G21
      G92 X0
      X[#5420+1] Z#<_z>`,
    moves: `rapid 25.4 10 5
      rapid 50.8 35.4 5
      rapid 51.8 35.4 5`,
  },
  {
    title: '#5211 is the shift of G92, kept while it is suspended',
    program: `G21 G90 G0 X1 Y2 Z3
      G92 X0 Y0
      G0 X#5211 Y#5212
      G92.2
      X#5211
      X#5210
      G92.1
      X#5211`,
    // G92 at 1, 2 shifts by 1, 2: X1 is 2 in the work offset, Y2 is 4.
    moves: `rapid 1 2 3
      rapid 2 4 3
      rapid 1 4 3
      rapid 0 4 3
      rapid 0 4 3`,
  },
]);
