/** Programs of our own scenario with every move worked out by a script that is not the product: line, kind, end X Y Z, length in mm. */
export const EXAMPLES = [
  {
    title: 'subprograms with repeats and a local shift',
    dialect: 'iso6983',
    text: `%
O4203 (VB-08 VALVE BODY, OP30 TWO UP, SUBPROGRAM)
(T7 D6. 2FL SLOT DRILL)
G21 G17 G90 G94
T7 M6
G54 S6000 M3
G0 X0. Y0.
G43 H7 Z15.
M98 P24210
G52 X60. Y0.
G90 G0 X0. Y0.
M98 P4210 L2
G52 X0. Y0.
G0 Z50. M5
M30
O4210 (ONE SLOT PASS, CALLED BY O4203)
G90 G0 X10. Y10.
G0 Z2.
G1 Z-1. F150.
G91 G1 X20. F480.
G3 Y8. J4.
G1 X-20.
G3 Y-8. J-4.
G90 G0 Z5.
M99
%
`,
    lengths: { rapid: 170.274466, feed: 172.0, arc: 100.530965 },
    moves: `
5 toolchange ? ? ? 0
7 rapid 0 0 ? ?
8 rapid 0 0 15 ?
17 rapid 10 10 15 14.142136
18 rapid 10 10 2 13
19 feed 10 10 -1 3
20 feed 30 10 -1 20
21 arc 30 18 -1 12.566371
22 feed 10 18 -1 20
23 arc 10 10 -1 12.566371
24 rapid 10 10 5 6
17 rapid 10 10 5 0
18 rapid 10 10 2 3
19 feed 10 10 -1 3
20 feed 30 10 -1 20
21 arc 30 18 -1 12.566371
22 feed 10 18 -1 20
23 arc 10 10 -1 12.566371
24 rapid 10 10 5 6
11 rapid 60 0 5 50.990195
17 rapid 70 10 5 14.142136
18 rapid 70 10 2 3
19 feed 70 10 -1 3
20 feed 90 10 -1 20
21 arc 90 18 -1 12.566371
22 feed 70 18 -1 20
23 arc 70 10 -1 12.566371
24 rapid 70 10 5 6
17 rapid 70 10 5 0
18 rapid 70 10 2 3
19 feed 70 10 -1 3
20 feed 90 10 -1 20
21 arc 90 18 -1 12.566371
22 feed 70 18 -1 20
23 arc 70 10 -1 12.566371
24 rapid 70 10 5 6
14 rapid 70 10 50 45
`,
  },
  {
    title: 'macro with WHILE, IF GOTO and G65',
    dialect: 'iso6983',
    text: `%
O4301 (QB-22 FLANGE BRACKET, BOLT CIRCLE BY MACRO)
(T3 8.5 DRILL)
G21 G17 G90 G94 G80
#101=6 (HOLES)
#102=40. (CIRCLE RADIUS)
#103=-18. (DEPTH)
#104=0 (COUNTER)
T3 M6
G54 S1800 M3
G0 X0. Y0.
G43 H3 Z30.
WHILE [#104 LT #101] DO1
#105=#104*360./#101
IF [#104 EQ 3] GOTO 50
G0 X[#102*COS[#105]] Y[#102*SIN[#105]]
G65 P4310 R2. Z#103 Q5. F240.
N50 #104=#104+1
END1
G0 Z30.
M5
M30
O4310 (PECK DRILL AT THE CURRENT PLACE: R START, Z DEPTH, Q PECK, F FEED)
G0 Z#18
#30=#18
WHILE [#30 GT #26] DO2
#30=#30-#17
IF [#30 LT #26] THEN #30=#26
G1 Z#30 F#9
G0 Z#18
END2
M99
%
`,
    lengths: { rapid: 535.282032, feed: 250.0 },
    moves: `
9 toolchange ? ? ? 0
11 rapid 0 0 ? ?
12 rapid 0 0 30 ?
16 rapid 40 0 30 40
24 rapid 40 0 2 28
29 feed 40 0 -3 5
30 rapid 40 0 2 5
29 feed 40 0 -8 10
30 rapid 40 0 2 10
29 feed 40 0 -13 15
30 rapid 40 0 2 15
29 feed 40 0 -18 20
30 rapid 40 0 2 20
16 rapid 20 34.641016 2 40
24 rapid 20 34.641016 2 0
29 feed 20 34.641016 -3 5
30 rapid 20 34.641016 2 5
29 feed 20 34.641016 -8 10
30 rapid 20 34.641016 2 10
29 feed 20 34.641016 -13 15
30 rapid 20 34.641016 2 15
29 feed 20 34.641016 -18 20
30 rapid 20 34.641016 2 20
16 rapid -20 34.641016 2 40
24 rapid -20 34.641016 2 0
29 feed -20 34.641016 -3 5
30 rapid -20 34.641016 2 5
29 feed -20 34.641016 -8 10
30 rapid -20 34.641016 2 10
29 feed -20 34.641016 -13 15
30 rapid -20 34.641016 2 15
29 feed -20 34.641016 -18 20
30 rapid -20 34.641016 2 20
16 rapid -20 -34.641016 2 69.282032
24 rapid -20 -34.641016 2 0
29 feed -20 -34.641016 -3 5
30 rapid -20 -34.641016 2 5
29 feed -20 -34.641016 -8 10
30 rapid -20 -34.641016 2 10
29 feed -20 -34.641016 -13 15
30 rapid -20 -34.641016 2 15
29 feed -20 -34.641016 -18 20
30 rapid -20 -34.641016 2 20
16 rapid 20 -34.641016 2 40
24 rapid 20 -34.641016 2 0
29 feed 20 -34.641016 -3 5
30 rapid 20 -34.641016 2 5
29 feed 20 -34.641016 -8 10
30 rapid 20 -34.641016 2 10
29 feed 20 -34.641016 -13 15
30 rapid 20 -34.641016 2 15
29 feed 20 -34.641016 -18 20
30 rapid 20 -34.641016 2 20
20 rapid 20 -34.641016 30 28
`,
  },
  {
    title: 'O-words and named parameters',
    dialect: 'ngc',
    text: `(QB-22 FLANGE BRACKET, POCKET STEPS WITH O-WORDS)
(TOOL 6: 12 mm end mill, 3 flutes)
G21 G17 G90 G94 G91.1 G64 P0.01
#<_step> = 0.75
#<width> = 30
o<ring> sub
  (#1 = half width, #2 = depth)
  G1 Z[0 - #2] F300
  G1 X#1 F900
  G1 Y#1
  G1 X[0 - #1]
  G1 Y[0 - #1]
  G1 X#1
  G1 Y0
  G1 X0
o<ring> endsub
T6 M6 G43
S4000 M3
G54 G0 X0 Y0
G0 Z2
#5 = 0
o100 repeat [3]
  #5 = [#5 + #<_step>]
  o<ring> call [#<width> / 2 - 6] [#5]
o100 endrepeat
o110 if [#5 GT 2]
  G0 Z20
o110 else
  G0 Z2
o110 endif
M5
M2
`,
    lengths: { feed: 274.25, rapid: 22.25 },
    moves: `
17 toolchange ? ? ? 0
19 rapid 0 0 ? ?
20 rapid 0 0 2 ?
8 feed 0 0 -0.75 2.75
9 feed 9 0 -0.75 9
10 feed 9 9 -0.75 9
11 feed -9 9 -0.75 18
12 feed -9 -9 -0.75 18
13 feed 9 -9 -0.75 18
14 feed 9 0 -0.75 9
15 feed 0 0 -0.75 9
8 feed 0 0 -1.5 0.75
9 feed 9 0 -1.5 9
10 feed 9 9 -1.5 9
11 feed -9 9 -1.5 18
12 feed -9 -9 -1.5 18
13 feed 9 -9 -1.5 18
14 feed 9 0 -1.5 9
15 feed 0 0 -1.5 9
8 feed 0 0 -2.25 0.75
9 feed 9 0 -2.25 9
10 feed 9 9 -2.25 9
11 feed -9 9 -2.25 18
12 feed -9 -9 -2.25 18
13 feed 9 -9 -2.25 18
14 feed 9 0 -2.25 9
15 feed 0 0 -2.25 9
27 rapid 0 0 20 22.25
`,
  },
] as const;
