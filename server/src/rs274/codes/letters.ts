/** What a letter means, for hovers and completion; the code of the block can give it another meaning. */
export const LETTERS: Readonly<Record<string, { means: string; lathe?: string; unit: string }>> = {
  A: { means: 'rotary axis about X', lathe: 'rotary axis about X, or the angle of a line', unit: 'degree' },
  B: { means: 'rotary axis about Y', unit: 'degree' },
  C: { means: 'rotary axis about Z', lathe: 'C axis of the spindle, or a chamfer', unit: 'degree or length' },
  D: {
    means: 'cutter compensation number',
    lathe: 'depth of cut in one-block cycles, or speed clamp with G96',
    unit: '',
  },
  E: { means: 'analogue output number', lathe: 'fine thread lead', unit: 'length per revolution' },
  F: { means: 'feed', lathe: 'feed or thread lead', unit: 'by the feed mode' },
  G: { means: 'preparatory code', unit: '' },
  H: { means: 'tool length offset number', lathe: 'increment of C', unit: '' },
  I: { means: 'arc centre or cycle data along X', unit: 'length' },
  J: { means: 'arc centre or cycle data along Y', unit: 'length' },
  K: { means: 'arc centre or cycle data along Z; repeats or lead with some codes', unit: 'length' },
  L: { means: 'repeats, or the kind of G10', unit: '' },
  M: { means: 'miscellaneous code', unit: '' },
  N: { means: 'block number', unit: '' },
  O: { means: 'program number or flow control', unit: '' },
  P: { means: 'dwell, program number, offset number, start of profile, scale', unit: 'by the code' },
  Q: { means: 'peck, shift, end of profile, start angle', unit: 'by the code' },
  R: { means: 'arc radius, R level, retract, taper, angle of rotation', unit: 'length or degree' },
  S: { means: 'spindle speed', lathe: 'spindle speed or surface speed', unit: 'rev/min, m/min or ft/min' },
  T: { means: 'tool number', lathe: 'tool and offset number: T0101 is tool 1 with offset 1', unit: '' },
  U: { means: 'secondary axis along X', lathe: 'increment of X (diameter)', unit: 'length' },
  V: { means: 'secondary axis along Y', lathe: 'increment of Y', unit: 'length' },
  W: { means: 'secondary axis along Z', lathe: 'increment of Z', unit: 'length' },
  X: {
    means: 'position along X',
    lathe: 'position along X, as a diameter unless radius words are in force',
    unit: 'length',
  },
  Y: { means: 'position along Y', unit: 'length' },
  Z: { means: 'position along Z', unit: 'length' },
};

/** M codes that only printers and their like use. */
export const NOT_CUTTING_M_CODES: readonly number[] = [82, 83, 104, 106, 107, 109, 140, 190, 204, 205];
/** Comments that only printer programs carry. */
export const NOT_CUTTING_COMMENTS: readonly string[] = [';LAYER', ';TYPE'];

/** Signs that a program is not a cutting program, in words, for the report. */
export const NOT_CUTTING_SIGNS: readonly string[] = [
  ...NOT_CUTTING_M_CODES.map(number => `M${number}`),
  'G29 without axis words',
  'an E word in a G0 or G1 block',
  ...NOT_CUTTING_COMMENTS.map(text => `a comment ${text}`),
];
