import { either, field, list, map, mapped, object, type Read, type Spec, section } from './spec.ts';
import { coordinate, formed, number, oneOf, quantity, range, text } from './spec-leaves.ts';
import { toolsByNumber } from './tool-keys.ts';

export const dialects = ['ngc', 'iso6983', 'lathe-a', 'lathe-b', 'lathe-c'] as const;
export type Dialect = (typeof dialects)[number];

/** What a control expects of offset numbers: the letter, and what is added to the tool number (or one fixed number). */
export type OffsetRule = { letter: 'H' | 'D'; is: 'tool-plus' | 'fixed'; number: number };

/** A curve over spindle speed: pairs of rev/min and value, ascending. A single number is one pair at speed 0. */
export type SpeedCurve = readonly (readonly [rpm: number, value: number])[];

const axisForm = { what: 'an axis letter', pattern: '^[XYZABCUVWxyzabcuvw]$', example: 'x' };
const axes = <T>(of: Spec<T>): Spec<Map<string, T>> =>
  map(of, axisForm, key => (/^[xyzabcuvw]$/i.test(key) ? key.toLowerCase() : undefined));

const curve = (kind: 'power' | 'torque'): Spec<SpeedCurve> =>
  mapped(
    either(
      quantity(kind, { above: 0, most: 100_000 }),
      list(list(number({ least: 0, most: 1e6 }), { least: 2, most: 2, whole: true }), {
        least: 1,
        most: 100,
        whole: true,
      }),
    ),
    (value, node, context) => {
      if (typeof value === 'number') return [[0, value]];
      const pairs = value.map(([rpm, amount]) => [rpm ?? 0, amount ?? 0] as const);
      const ascending = pairs.every(([rpm], index) => index === 0 || rpm > (pairs[index - 1]?.[0] ?? 0));
      if (ascending) return pairs;
      context.report('setup-range', node, `${context.path}: speeds must rise from pair to pair.`);
      return undefined;
    },
  );

const spindle = object(
  {
    max_rpm: field('max_rpm', number({ above: 0, most: 1_000_000 }), 'Top spindle speed, rev/min.', {
      example: '10000',
    }),
    min_rpm: field('min_rpm', number({ least: 0, most: 1_000_000 }), 'Lowest spindle speed, rev/min.', {
      example: '60',
    }),
    power_kw: field(
      'power_kw',
      curve('power'),
      'Spindle power in kW: one number, or pairs of rev/min and kW.',
      { example: '[[0, 2], [1500, 11], [10000, 11]]' },
    ),
    torque_nm: field(
      'torque_nm',
      curve('torque'),
      'Spindle torque in N m: one number, or pairs of rev/min and N m.',
      { example: '70' },
    ),
  },
  (value, node, context) => {
    if (value.max_rpm && value.min_rpm && value.min_rpm.value > value.max_rpm.value) {
      context.report('setup-conflict', node, `${context.path}: min_rpm is over max_rpm.`);
    }
    return value;
  },
);

const offsetRuleForm = {
  name: 'an offset rule',
  pattern: '^\\s*[HhDd]\\s*=\\s*([Tt](\\s*[+-]\\s*\\d{1,4})?|\\d{1,4})\\s*$',
  example: 'D=T+20',
};
const offsetRule = formed(offsetRuleForm, (value): OffsetRule | undefined => {
  const match = /^([HD])\s*=\s*(?:(T)(?:\s*([+-])\s*(\d{1,4}))?|(\d{1,4}))$/i.exec(value);
  if (!match) return undefined;
  const letter = match[1]?.toUpperCase() === 'H' ? 'H' : 'D';
  if (match[2] === undefined) return { letter, is: 'fixed', number: Number(match[5]) };
  const add = Number(match[4] ?? 0);
  return { letter, is: 'tool-plus', number: match[3] === '-' ? -add : add };
});

const feed = () => quantity('feed', { above: 0, most: 1e6 });
const acceleration = () => quantity('acceleration', { above: 0, most: 1000 });

const machineRows = {
  kind: field('kind', oneOf('mill', 'lathe'), 'Mill or lathe.', { example: '"mill"' }),
  dialect: field(
    'dialect',
    oneOf(...dialects),
    "The control's language, by what it is: RS-274/NGC, ISO 6983, or one of the three lathe code systems.",
    { example: '"ngc"' },
  ),
  spindle: section('spindle', spindle, 'Limits of the spindle.', {
    example: '{ "max_rpm": 10000, "power_kw": 11 }',
  }),
  max_feed_mm_min: field('max_feed', feed(), 'Highest cutting feed.', { example: '"500 in/min"' }),
  rapid_mm_min: field('rapid', either(feed(), axes(feed())), 'Rapid traverse: one number, or one an axis.', {
    example: '{ "x": 25000, "y": 25000, "z": 18000 }',
  }),
  acceleration_m_s2: field(
    'acceleration_m_s2',
    either(acceleration(), axes(acceleration())),
    'Acceleration in m/s2: along the path, or one an axis.',
    { example: '3' },
  ),
  block_rate_per_s: field(
    'block_rate_per_s',
    number({ above: 0, most: 1e6 }),
    'How many blocks a second the control can take in.',
    { example: '1000' },
  ),
  tool_change_s: field(
    'tool_change_s',
    number({ least: 0, most: 3600 }),
    'Seconds a tool change takes, chip to chip.',
    { example: '6' },
  ),
  travel_mm: field(
    'travel',
    axes(range(coordinate())),
    'Travel of each axis in machine coordinates, lowest and highest.',
    { example: '{ "x": [0, 760], "z": [-510, 0] }' },
  ),
  least_increment_mm: field(
    'least_increment',
    either(quantity('length', { above: 0, most: 1 }), oneOf('none')),
    'What a number without a point counts: the least increment; "none" where such a number is whole units.',
    { example: '0.001' },
  ),
  compensation: field(
    'compensation',
    oneOf('part-edge', 'wear-only'),
    "What the program is with G41 and G42: the edge of the part with the tool's radius in the offset, or the tool's centre with only the wear there.",
    { example: '"part-edge"' },
  ),
  offset_rules: field(
    'offset_rule',
    mapped(either(offsetRule, list(offsetRule, { least: 1, most: 4 })), rules =>
      Array.isArray(rules) ? rules : [rules],
    ),
    'Which offset numbers the shop uses with a tool.',
    { example: '["H=T", "D=T+20"]' },
  ),
  override_step_percent: field(
    'override_step',
    number({ least: 1, most: 50 }),
    'Steps of the feed override, percent.',
    { example: '10' },
  ),
};

export type Machine = Read<typeof machineRows>;

/** A machine written out in a setup sheet. */
export const machineSpec: Spec<Machine> = object(machineRows);

const cribMachineRows = {
  ...machineRows,
  standing: section(
    'standing',
    toolsByNumber(standingTool()),
    'Tools that stay in this machine: number and id of a tool in "tools".',
    { example: '{ "1": "em-12-3fl", "7": "probe" }' },
  ),
};

export type CribMachine = Read<typeof cribMachineRows>;

/** A machine of a crib. */
export const cribMachineSpec: Spec<CribMachine> = object(cribMachineRows);

/** The id of a standing tool, with the place where it is named. */
function standingTool(): Spec<{ id: string; offset: number; length: number; line: number | undefined }> {
  return mapped(text(), (id, node, context) => ({
    id,
    offset: node.offset,
    length: node.length,
    line: context.origin(node).line,
  }));
}
