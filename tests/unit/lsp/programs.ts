import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { EXAMPLES } from '../rs274/flow/examples.ts';

const fixtures = new URL('../../../fixtures/', import.meta.url);

/** Every program of the fixtures, the worked examples, and some written the way people write them. */
export function allPrograms(): { name: string; text: string }[] {
  const found: { name: string; text: string }[] = [];
  for (const name of readdirSync(fixtures, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(nc|ngc|tap|cnc|eia)$/.test(name)) continue;
    found.push({ name, text: readFileSync(join(fixtures.pathname, name), 'latin1') });
  }
  for (const { title, text } of EXAMPLES) found.push({ name: title, text });
  for (const [name, text] of Object.entries(HAND_WRITTEN)) found.push({ name, text });
  return found;
}

const HAND_WRITTEN: Record<string, string> = {
  'blanks everywhere':
    '%\n  O0100 ( PLATE )  \n g21  g90 g17\t\n t1 m6\n s 1200 m3\n g0 x 10 y -5.  \n g1 z - 1. 5 f 200\n x +0. 12 34\n/ g0 z5.\n/2 x9.\n m30\n%\nnot read',
  'no blanks':
    'N10G21G90\nN20T1M6\nN30S1200M3G0X10.Y-5.\nN40G1Z-1.5F200(CUT)X20.\nN50G2X30.Y5.I5.J5.;arc\nN60M30',
  'things that cannot be read':
    'G21 G90\nroughing pass\nG0 X10. Y\nG1 X1O. F100\nG1 X1,5\n[BILLET X50 Z80\nG0 X5. &\nG1 ,C1. X20.\n(open comment\nM30\n',
  jumps:
    'O1\nN10 G21 G90 G0 X0\nN20 #1=0\nN30 #1=#1+1\nN40 G0 X#1\nN50 IF [#1 LT 3] GOTO 30\nN60 M97 P100\nN70 GOTO 90\nN80 G0 X99.\nN90 M30\nN100 G0 X50.\nN110 M99\n',
  'numbers used twice':
    'N1 G21 G90\n#1=0\nN5 #1=#1+1\nG0 X#1\nIF [#1 GT 2] GOTO 9\nGOTO 5\nN5 G0 X77.\nN9 M30\n',
  'lathe profile':
    '%\nO7\nG21 G40\nG28 U0 W0\nT0101\nG50 S2000\nG96 S180 M3\nG0 X62. Z2.\nG71 U2. R0.5\nG71 P100 Q140 U0.4 W0.1 F0.25\nN100 G0 X26.\nN110 G1 Z0 F0.12\nN120 X30. Z-2.\nN130 Z-25.\nN140 X60.\nG70 P100 Q140\nG28 U0 W0\nM30\n%\n',
};
