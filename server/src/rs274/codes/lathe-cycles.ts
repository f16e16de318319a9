import { type CodeRow, code, type Dialect, type Effect, NGC } from './shape.ts';

interface LatheCycle {
  effect: Effect;
  means: string;
  does: string;
  needs: string;
  takes: string;
  modal: boolean;
  example: string;
  /** Number in code system A, B, C; the same function has different numbers. */
  numbers: readonly [string, string, string];
}

const LATHE_CYCLES: readonly LatheCycle[] = [
  {
    effect: 'turning-cycle',
    numbers: ['G90', 'G77', 'G20'],
    means: 'turning cycle',
    needs: 'X|U|Z|W',
    takes: 'X Z U W R I F',
    modal: true,
    example: 'X40. Z-30. F0.2',
    does: 'Rapid to X, feed to Z, feed back to the start X, rapid to the start Z. R is the taper as a radius. Later blocks need only the changed word.',
  },
  {
    effect: 'thread-cycle',
    numbers: ['G92', 'G78', 'G21'],
    means: 'thread cycle',
    needs: 'X|U|Z|W',
    takes: 'X Z U W R I F E Q L',
    modal: true,
    example: 'X28.4 Z-20. F1.5',
    does: 'Rapid to X, thread to Z with lead F, rapid back to the start X and the start Z. R is the taper as a radius. Later blocks need only the changed word.',
  },
  {
    effect: 'facing-cycle',
    numbers: ['G94', 'G79', 'G24'],
    means: 'facing cycle',
    needs: 'X|U|Z|W',
    takes: 'X Z U W R K F',
    modal: true,
    example: 'X0. Z-1. F0.2',
    does: 'Rapid to Z, feed to X, feed back to the start Z, rapid to the start X. Later blocks need only the changed word.',
  },
  {
    effect: 'finishing',
    numbers: ['G70', 'G70', 'G72'],
    means: 'finishing',
    needs: 'P Q',
    takes: 'F S T',
    modal: false,
    example: 'P100 Q160',
    does: 'Runs the profile of blocks P to Q once, at the feeds and speeds inside it, and returns to the start point.',
  },
  {
    effect: 'turning-roughing',
    numbers: ['G71', 'G71', 'G73'],
    means: 'roughing along Z',
    needs: '',
    takes: 'P Q U W D I K R F S T',
    modal: false,
    example: 'P100 Q160 U0.4 W0.1 F0.25',
    does: 'Two blocks: U depth (radius) and R retract; then P Q profile, U stock on X (diameter), W stock on Z, F, S. In one block D is the depth.',
  },
  {
    effect: 'facing-roughing',
    numbers: ['G72', 'G72', 'G74'],
    means: 'roughing along X',
    needs: '',
    takes: 'P Q U W D I K R F S T',
    modal: false,
    example: 'P100 Q160 U0.4 W0.1 F0.25',
    does: 'As roughing along Z turned by 90 degrees: first block W depth and R retract.',
  },
  {
    effect: 'pattern-repeating',
    numbers: ['G73', 'G73', 'G75'],
    means: 'pattern repeating',
    needs: '',
    takes: 'P Q U W R D I K F S T',
    modal: false,
    example: 'P100 Q160 U0.4 W0.1 F0.25',
    does: 'Runs the whole profile several times, each closer: U and W relief and R passes in the first block; P Q U W in the second.',
  },
  {
    effect: 'face-peck',
    numbers: ['G74', 'G74', 'G76'],
    means: 'face peck',
    needs: '',
    takes: 'X Z U W P Q R I K D F',
    modal: false,
    example: 'Z-20. Q5000 F0.1',
    does: 'First block R retract; then pecks of Q along Z at X steps of P. Without X and P a peck drill on the centre line.',
  },
  {
    effect: 'groove',
    numbers: ['G75', 'G75', 'G77'],
    means: 'grooving',
    needs: '',
    takes: 'X Z U W P Q R I K D F',
    modal: false,
    example: 'X30. Z-12. P1000 Q2500 F0.08',
    does: 'First block R retract; then pecks of P (radius) along X at Z steps of Q.',
  },
  {
    effect: 'multi-pass-thread',
    numbers: ['G76', 'G76', 'G78'],
    means: 'thread in several passes',
    needs: '',
    takes: 'X Z U W P Q R K D F A I J H E L',
    modal: false,
    example: 'X28.16 Z-20. P920 Q300 F1.5',
    does: 'First block P (passes, chamfer, angle as six digits), Q least depth, R finish allowance; second X Z end, R taper, P height, Q first depth, F lead. In one block K height and D first depth.',
  },
];

const SYSTEMS: readonly Dialect[] = ['lathe-a', 'lathe-b', 'lathe-c'];

function latheRows(cycle: LatheCycle): CodeRow[] {
  return [...new Set(cycle.numbers)].map(name =>
    code({
      code: name,
      group: cycle.modal ? 'motion' : 'non-modal',
      in: SYSTEMS.filter((_, index) => cycle.numbers[index] === name),
      means: cycle.means,
      does: cycle.does,
      needs: cycle.needs,
      takes: cycle.takes,
      axis_words: cycle.takes.includes('X'),
      motion: 'moves',
      effect: cycle.effect,
      example: `${name} ${cycle.example}`,
    }),
  );
}

const ngcProfile = (number: number, effect: Effect, means: string, does: string): CodeRow =>
  code({
    code: `G${number}`,
    group: 'non-modal',
    in: NGC,
    means,
    needs: 'Q',
    takes: 'X Z D E I R P F',
    axis_words: true,
    motion: 'moves',
    effect,
    does,
    example: `G${number} Q100 ${effect === 'finishing' ? '' : 'X52 Z1 D0.2 I2 R0.5'}`.trim(),
  });

/** Simple and multi-pass cycles of the three lathe code systems and of the report successor. */
export const LATHE_CYCLE_CODES: readonly CodeRow[] = [
  ...LATHE_CYCLES.flatMap(latheRows),
  ngcProfile(
    70,
    'finishing',
    'finishing',
    'Finishes along the profile in subroutine Q; D first and E last distance to it, P passes.',
  ),
  ...[71, 71.1, 71.2].map(number =>
    ngcProfile(
      number,
      'turning-roughing',
      'roughing along Z',
      'Roughs the profile in subroutine Q: D distance left, I depth, R retract. Plain: monotone profile; .1 pockets along Z; .2 pockets along X.',
    ),
  ),
  ...[72, 72.1, 72.2].map(number =>
    ngcProfile(
      number,
      'facing-roughing',
      'roughing along X',
      'Roughs the profile in subroutine Q with passes along X: D distance left, I depth, R retract. Plain: monotone profile; .1 and .2 allow pockets.',
    ),
  ),
];

/** What a function is called in the three lathe code systems; for reading, hovers and the manual. Common practice, no source. */
export const LATHE_CODE_SYSTEMS: readonly { means: string; a: string; b: string; c: string }[] = [
  { means: 'absolute', a: 'X Z', b: 'G90', c: 'G90' },
  { means: 'incremental', a: 'U W', b: 'G91', c: 'G91' },
  { means: 'feed per minute', a: 'G98', b: 'G94', c: 'G94' },
  { means: 'feed per revolution', a: 'G99', b: 'G95', c: 'G95' },
  { means: 'inch', a: 'G20', b: 'G20', c: 'G70' },
  { means: 'millimetre', a: 'G21', b: 'G21', c: 'G71' },
  { means: 'thread, one pass', a: 'G32', b: 'G33', c: 'G33' },
  { means: 'set position, speed clamp', a: 'G50', b: 'G92', c: 'G92' },
  { means: 'cycles return to the initial level', a: '', b: 'G98', c: 'G98' },
  { means: 'cycles return to R', a: '', b: 'G99', c: 'G99' },
  ...LATHE_CYCLES.map(({ means, numbers }) => ({ means, a: numbers[0], b: numbers[1], c: numbers[2] })),
];
