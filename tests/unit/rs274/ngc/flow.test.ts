import { describePaths } from './path.ts';

/** O-words and calls of the report's successor, from memory. */
describePaths('ngc: subroutines', [
  {
    title: 'arguments are the first locals, the others 0; commons and globals stay, the value comes back',
    program: `o<place> sub
        G0 X#1 Y#2 Z#3
        #1=99 #40=5
        #<inner>=7
      o<place> endsub [#2*2]
      #1=1 #2=2 #3=9 #<inner>=3
      o<place> call [10] [20]
      G0 X#1 Y#<_value> Z#40
      X#<inner> Y#<_value_returned>
      o<place> call`,
    moves: `rapid 10 20 0
      rapid 1 40 5
      rapid 3 1 5
      rapid 0 0 0`,
  },
  {
    title: 'a return from inside gives its value; none gives 0',
    program: `o100 sub
        o101 if [#1 GT 5]
          o100 return [#1*10]
        o101 endif
        G0 Z#1
      o100 endsub
      G0 X0 Y0 Z0
      o100 call [6]
      X#<_value> Y#<_value_returned>
      o100 call [2]
      X#<_value> Y#<_value_returned>`,
    moves: `rapid 0 0 0
      rapid 60 1 0
      rapid 60 1 2
      rapid 0 0 2`,
  },
  {
    title: 'calls inside calls, each with its own locals',
    program: `o10 sub
        #2=[#1*2]
        o20 call [#2]
        G0 Y#2
      o10 endsub
      o20 sub
        #2=[#1+1]
        G0 X#2
        o30 call
      o20 endsub
      o30 sub
        G0 Z#2
      o30 endsub
      o10 call [4]`,
    moves: `rapid 9 - -
      rapid 9 - 0
      rapid 9 8 0`,
  },
  {
    title: 'a call of itself, counted down',
    program: `o<down> sub
        G0 X#1
        o<deeper> if [#1 GT 1]
          o<down> call [#1-1]
        o<deeper> endif
        Y#1
      o<down> endsub
      o<down> call [3]`,
    moves: `rapid 3 - -
      rapid 2 - -
      rapid 1 - -
      rapid 1 1 -
      rapid 1 2 -
      rapid 1 3 -`,
  },
  {
    title: 'labels by number, by name and worked out are the same label; case and blanks mean nothing',
    program: `O 100 SUB
        G0 X[#1]
      O100 EndSub
      #3=100
      o100call[1]
      o#3 call [2]
      o[50*2] call [3]
      o<Name It> sub
      G0 Y#1
      o<nameit> endsub
      O<NAMEIT> CALL [4]`,
    moves: `rapid 1 - -
      rapid 2 - -
      rapid 3 - -
      rapid 3 4 -`,
  },
  {
    title: 'modes and positions of a subroutine stay after it',
    program: `G21 G90 G0 X0 Y0 Z0
      o<in> sub
        G91 G1 X1 F100
      o<in> endsub
      o<in> call
      o<in> call
      Y1`,
    moves: `rapid 0 0 0
      feed 1 0 0
      feed 2 0 0
      feed 2 1 0`,
  },
  {
    title: 'O programs with M98, repeats and M99',
    program: `G21 G90 G0 X0 Y0 Z0
      M98 P100 L2
      M98 P200
      M2
      O100
      G91 G0 X1
      M98 P200
      G90
      M99
      O200
      G91 Y5
      G90
      M99`,
    moves: `rapid 0 0 0
      rapid 1 0 0
      rapid 1 5 0
      rapid 2 5 0
      rapid 2 10 0
      rapid 2 15 0`,
  },
]);

describePaths('ngc: branches and loops', [
  {
    title: 'the first branch that holds, and no other',
    program: `#1=2
      o1 if [#1 EQ 1]
        G0 X1
      o1 elseif [#1 EQ 2]
        G0 X2
        #1=3
      o1 elseif [#1 EQ 3]
        G0 X3
      o1 else
        G0 X4
      o1 endif
      o2 if [0]
        Y1
      o2 else
        Y2
      o2 endif`,
    moves: `rapid 2 - -
      rapid 2 2 -`,
  },
  {
    title: 'while with continue and break, in and out of an if',
    program: `#1=0
      o1 while [#1 LT 10]
        #1=[#1+1]
        o2 if [#1 EQ 2]
          o1 continue
        o2 endif
        o3 if [#1 EQ 4]
          o1 break
        o3 endif
        G0 X#1
      o1 endwhile
      Y#1`,
    moves: `rapid 1 - -
      rapid 3 - -
      rapid 3 4 -`,
  },
  {
    title: 'do while: at least once; continue goes to the condition',
    program: `#1=5
      o1 do
        #1=[#1-2]
        o2 if [#1 LT 2]
          o1 continue
        o2 endif
        G0 X#1
      o1 while [#1 GT 0]
      o3 do
        Y7
      o3 while [0]`,
    moves: `rapid 3 - -
      rapid 3 7 -`,
  },
  {
    title: 'repeat, repeat 0 and loops in each other',
    program: `G21 G90 G0 X0 Y0
      G91
      o1 repeat [2]
        X1
        o2 repeat [1+1]
          Y1
        o2 endrepeat
      o1 endrepeat
      o3 repeat [0]
        X100
      o3 endrepeat
      o4 while [#5 GT 0]
        X100
      o4 endwhile
      X1`,
    moves: `rapid 0 0 -
      rapid 1 0 -
      rapid 1 1 -
      rapid 1 2 -
      rapid 2 2 -
      rapid 2 3 -
      rapid 2 4 -
      rapid 3 4 -`,
  },
  {
    title: 'a break out of two levels of if leaves the loop of its label only',
    program: `#1=0
      o1 while [#1 LT 3]
        #1=[#1+1]
        #2=0
        o2 while [1]
          #2=[#2+1]
          o3 if [#2 GE 2]
            o4 if [1]
              o2 break
            o4 endif
          o3 endif
          G0 X#1 Y#2
        o2 endwhile
      o1 endwhile
      Z#2`,
    moves: `rapid 1 1 -
      rapid 2 1 -
      rapid 3 1 -
      rapid 3 1 2`,
  },
  {
    title: 'a subroutine inside a loop, with the loop variable as argument',
    program: `o<bolt> sub
        #<r>=#1 #<n>=#2 #<i>=0
        o1 while [#<i> LT #<n>]
          #<a>=[360/#<n>*#<i>]
          G0 X[#<r>*COS[#<a>]] Y[#<r>*SIN[#<a>]]
          #<i>=[#<i>+1]
        o1 endwhile
      o<bolt> endsub
      o<bolt> call [10] [4]`,
    moves: `rapid 10 0 -
      rapid 0 10 -
      rapid -10 0 -
      rapid 0 -10 -`,
  },
  {
    title: 'block delete leaves out flow words too',
    program: `G0 X0
      /o1 if [0]
      X1
      /o1 endif
      /X2
      X3`,
    moves: `rapid 0 - -
      rapid 1 - -
      rapid 3 - -`,
    options: { skip_deleted: true },
  },
]);
