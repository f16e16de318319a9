import { type CodeRow, code, ISO, LATHES, NGC, WORD_ADDRESS } from './shape.ts';

/** What machine builders and users add; named, not followed. */
export const BUILDER_CODES: readonly CodeRow[] = [
  ...(
    [
      ['M88', 'engage'],
      ['M89', 'disengage'],
      ['M154', 'engage'],
      ['M155', 'disengage'],
    ] as const
  ).map(([name, how]) =>
    code({
      code: name,
      group: 'none',
      in: LATHES,
      means: `${how} C axis`,
      effect: 'not-followed',
      does: `Builders use it to ${how} the C axis of a lathe.`,
      unchecked: 'whether the spindle or the C axis turns the work',
    }),
  ),
  ...(
    [
      [133, 'forward'],
      [134, 'reverse'],
      [135, 'stop'],
    ] as const
  ).map(([number, how]) =>
    code({
      code: `M${number}`,
      group: 'none',
      in: LATHES,
      means: `live tool ${how}`,
      takes: 'P S',
      effect: 'not-followed',
      does: `Builders use it for the live tool: ${how}.`,
      example: number === 135 ? 'M135' : `M${number} P1200`,
      unchecked: 'the speed of the live tool',
    }),
  ),
  code({
    code: 'M154',
    group: 'none',
    in: ISO,
    means: 'builder code',
    effect: 'not-followed',
    does: 'Belongs to the machine builder.',
    unchecked: 'what the machine does here',
  }),
  ...(
    [
      ['M12', 'air blast'],
      ['M15', 'builder function'],
      ['M16', 'builder function'],
      ['M17', 'builder function'],
      ['M18', 'orient or drive off'],
      ['M20', 'builder function'],
    ] as const
  ).map(([name, what]) =>
    code({
      code: name,
      group: 'none',
      in: WORD_ADDRESS,
      means: what,
      effect: 'not-followed',
      does: 'Differs from builder to builder.',
      unchecked: 'what the machine does here',
    }),
  ),
  code({
    code: 'M21',
    through: 28,
    group: 'none',
    in: WORD_ADDRESS,
    means: 'builder function',
    effect: 'not-followed',
    does: 'Differs from builder to builder: tailstock, mirror, chamfer of threads, chip flush.',
    unchecked: 'what the machine does here',
    example: 'M23',
  }),
  code({
    code: 'M31',
    group: 'none',
    in: WORD_ADDRESS,
    means: 'chip conveyor',
    effect: 'accepted',
    does: 'Chip conveyor forward on many machines.',
  }),
  code({
    code: 'M33',
    group: 'none',
    in: WORD_ADDRESS,
    means: 'chip conveyor stop',
    effect: 'accepted',
    does: 'Chip conveyor stop on many machines.',
  }),
  ...(
    [
      [32, 32],
      [34, 39],
      [46, 47],
      [50, 59],
      [61, 87],
      [90, 96],
    ] as const
  ).map(([from, to]) =>
    code({
      code: `M${from}`,
      ...(to > from ? { through: to } : {}),
      group: 'user',
      in: WORD_ADDRESS,
      means: 'builder function',
      effect: 'not-followed',
      does: 'Differs from builder to builder: clamps, doors, coolant pressure, part catcher, bar feeder.',
      unchecked: 'what the machine does here',
    }),
  ),
  code({
    code: 'M100',
    through: 199,
    group: 'user',
    in: NGC,
    means: 'user program',
    takes: 'P Q',
    effect: 'not-followed',
    does: 'Runs a program of the user outside the control.',
    unchecked: 'what that program does',
    example: 'M110 P1 Q2',
  }),
  code({
    code: 'M100',
    through: 9999,
    group: 'user',
    in: WORD_ADDRESS,
    means: 'builder code',
    takes: 'P Q',
    effect: 'not-followed',
    does: 'Belongs to the machine builder.',
    unchecked: 'what the machine does here',
    example: 'M110',
  }),
  code({
    code: 'G100',
    through: 999,
    group: 'user',
    in: WORD_ADDRESS,
    means: 'builder or user code',
    effect: 'not-followed',
    does: 'Numbers from 100 up belong to the builder or to user macros: mirror, tool probing, part transfer.',
    unchecked: 'what the machine does here; no motion is taken from it',
    example: 'G110',
  }),
];
