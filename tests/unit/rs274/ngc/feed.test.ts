import { check } from '../check.ts';
import { describePaths } from './path.ts';

/** Feed modes, threads, rotary axes and lathe words: NISTIR 6556 sections 2.1.2.5 and 3.5.19 and its successor, from memory. */
describePaths('ngc: threads and the lathe', [
  {
    title: 'G33 with K along Z and X, G33.1 in and out',
    program: `G21 G18 G90 G8 G0 X10 Z5 S100 M3
      G33 Z-10 K1.5
      X8 Z-12 K2
      G0 X10
      G33.1 Z-15 K1`,
    moves: `rapid 10 - 5
      thread 10 - -10 lead 1.5
      thread 8 - -12 lead 2
      rapid 10 - -12
      tap 10 - -15 lead 1
      tap 10 - -12 lead 1`,
    options: { kind: 'lathe' },
  },
  {
    title: 'G7 halves X words, not I; G8 takes them as radius',
    program: `G21 G18 G90 G7 G0 X20 Z0
      G1 X30 Z-5 F100
      G2 X40 Z-10 I5 K0
      G91 X-10 Z0 R5
      G90 G8 X15 Z0 R20`,
    // From radius 15, Z-5 about 20, -5 to 20, -10; then a chord of 5 with radius 5, and one of 10 with radius 20.
    moves: `rapid 10 - 0
      feed 15 - -5
      arc 20 - -10 -90deg
      arc 15 - -10 -60deg
      arc 15 - 0 -28.955deg`,
    options: { kind: 'lathe' },
  },
]);

describe('ngc: feed', () => {
  it('inverse time: 60 / F seconds a move, F in each block, nothing left of it after G94', () =>
    void check(
      `
    G21 G90 G0 X0 => rapid 0 - -
    G93 G1 X10 F2 => feed 10 - - seconds=30
    X20 F4 => feed 20 - - seconds=15
    X30 => feed 30 - - seconds=-; feed=-
    G0 X0 => rapid 0 - -
    G94 G1 X40 F100 => feed 40 - - feed=100
    G93 => feed=-
    G94 => feed=-`,
      { dialect: 'ngc' },
    ));
  it('F on a rapid block is for later; F counts before the move, units of its own block', () =>
    void check(
      `
    G21 G90 G0 X0 F200 => rapid 0 - -; feed=200
    G1 X5 => feed 5 - - feed=200
    X6 F300 => feed 6 - - feed=300
    G20 F10 X1 => feed 25.4 - - feed=254`,
      { dialect: 'ngc' },
    ));
  it('M3 to M9 count before the move of their block, the stops too', () =>
    void check(
      `
    G21 G90 G0 X0 M3 S100 => direction=1; spindle=100
    G1 X5 F100 M5 M8 => feed 5 - -; direction=0; coolant=2
    M7 => coolant=3
    M9 => coolant=0`,
      { dialect: 'ngc' },
    ));
  it('G96 D S and back', () =>
    void check(
      `
    G21 G96 D2500 S180 M3 => css=1; spindle=180; clamp_rpm=2500
    G97 S500 => css=0; spindle=500`,
      { dialect: 'ngc', kind: 'lathe' },
    ));
  it('T prepares, M6 changes, in one block too; M61 Q names the tool; T0 empties', () =>
    void check(
      `
    T1 M6 => toolchange - - - tool=1
    T2 => tool=1; prepared_tool=2
    G0 X1 => rapid 1 - - tool=1
    M6 => toolchange 1 - - tool=2
    M61 Q7 => tool=7
    T0 M6 => toolchange 1 - - tool=0`,
      { dialect: 'ngc' },
    ));
  it('rotary axes: positions are what was programmed, in G91 they add', () =>
    void check(
      `
    G21 G90 G0 A0 B10 C-20 => rapid - - - a=0 b=10 c=-20
    G1 A90 F360 => feed - - - a=90 b=10 c=-20
    X10 A720.5 => feed 10 - - a=720.5 b=10 c=-20
    G91 A10 C5 => feed 10 - - a=730.5 b=10 c=-15
    G90 G20 A1 => feed 10 - - a=1 b=10 c=-15`,
      { dialect: 'ngc' },
    ));
});
