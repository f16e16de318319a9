import { formatQuantity, type ShownUnits, showQuantity } from '../cutting/format.ts';
import type { FirstTouch } from '../proveout/first-touch.ts';
import type { ProveoutSheet, ProveoutTool, SpindleAsk } from '../proveout/sheet.ts';
import type { Stop } from '../proveout/stops.ts';
import type { WatchLine } from '../proveout/watch.ts';
import type { Review } from '../review/review.ts';
import { toolWords } from './tool-words.ts';

/** What the review cannot know; stands at the head of the sheet. */
export const NOT_SEEN = 'Control offsets, wear and parameters are not seen by this review.';

/** Before each first contact, in this order. Common practice, no source. */
export function approachSteps({ shown, kind }: Review['program']): string[] {
  return [
    'Guards shut, rapid override 5 to 25 %, single block on.',
    `Stop ${shown === 'inch' ? '1 in' : '25 mm'} ${kind === 'lathe' ? 'off' : 'above'} the work and read distance-to-go.`,
    'Check it against a scale at the tool; if they differ, the offset is wrong: do not go on.',
    'Feed override as listed; cycle start with a hand on feed hold.',
    'Hold each step until it cuts steadily, then the next.',
  ];
}

/** What to do when it does not sound so: feed first, then the spindle. Common practice, no source. */
export const IF_NOT: readonly (readonly [sound: string, what: string])[] = [
  ['rough, uneven', 'feed override down a step; look at chips, coolant and grip before going on'],
  [
    'high squeal',
    'feed override down first by the percentage listed, then the spindle to the speed named; in feed per revolution the feed follows by itself',
  ],
  ['knock, bang, load jump', 'feed hold, back out; do not stop the spindle in the cut; then adjust'],
  ['tapping, threading', 'never change an override: feed hold above the part, then look'],
];

/** `S3000 clockwise`, `200 m/min, at most 2500 rev/min`. */
export function spindleWords(asks: readonly SpindleAsk[], units: ShownUnits): string {
  if (asks.length === 0) return 'not known';
  const most = 4;
  const words = asks.slice(0, most).map(ask => {
    const turn = ask.clockwise === false ? ' counter-clockwise' : '';
    if (!ask.css) return `${formatQuantity('spindle_rpm', ask.value, units)}${turn}`;
    const clamp =
      ask.clamp_rpm === undefined
        ? ', no clamp'
        : `, at most ${formatQuantity('spindle_rpm', ask.clamp_rpm, units)}`;
    return `${formatQuantity('surface_speed_m_min', ask.value, units)}${clamp}${turn}`;
  });
  return `${words.join('; ')}${asks.length > most ? `; ${asks.length - most} more` : ''}`;
}

/** `feed 60, then 70, 80, 90, 100 %`. */
export function startWords({ contact }: ProveoutTool): string {
  if (contact.percent === undefined) return 'no figure';
  return `feed ${contact.percent} %, then ${contact.steps_percent.slice(1).join(', ')} %`;
}

/** What to do on a squeal with this tool; '' where nothing may be overridden. */
export function squealWords({ listening, locked }: ProveoutTool, units: ShownUnits): string {
  const { squeal } = listening;
  if (locked || !squeal) return 'no override here: run it above the part first';
  const spindle =
    squeal.spindle_rpm === undefined
      ? `spindle override ${squeal.percent} %`
      : `spindle ${formatQuantity('spindle_rpm', squeal.spindle_rpm, units)} (${squeal.percent} %)`;
  if (squeal.feed_follows)
    return `squeal: ${spindle}; the feed a revolution stays, the feed rate follows by itself`;
  return `squeal: feed down ${100 - squeal.percent} % first, then ${spindle}`;
}

/** What it should sound like, with the beat of the teeth where it is known. */
export function soundWords({ listening }: ProveoutTool, units: ShownUnits): string {
  const { sounds, tooth_pass_hz } = listening;
  if (tooth_pass_hz === undefined) return sounds;
  return `${sounds}; teeth pass at ${formatQuantity('tooth_pass_hz', tooth_pass_hz, units)}`;
}

/** What the position of a first touch is: the contact itself, or where that move begins. */
export function placeWord(touch: FirstTouch, kind: Review['program']['kind']): string {
  return touch.by === 'stock' && kind !== 'lathe' ? 'near' : 'the feed begins at';
}

/** `G54 X-0.35 Y0.1 Z-0.25 in`; on a lathe X as diameter. */
export function positionWords(touch: FirstTouch, units: ShownUnits, kind: Review['program']['kind']): string {
  if (!touch.position_mm) return 'position not known';
  const [x, y, z] = touch.position_mm;
  const unit = units === 'inch' ? 'in' : 'mm';
  const axes =
    kind === 'lathe'
      ? `X${bare(2 * x, units)} (diameter) Z${bare(z, units)}`
      : `X${bare(x, units)} Y${bare(y, units)} Z${bare(z, units)}`;
  return `${touch.frame ? `${touch.frame} ` : ''}${axes} ${unit}`;
}

/** `line 31: first contact with the work`. */
export function watchWords(watch: WatchLine, units: ShownUnits): string {
  const z = watch.z_mm === undefined ? '' : `, Z ${formatQuantity('length_mm', watch.z_mm, units)}`;
  return `line ${watch.line + 1}: ${watch.why}${z}`;
}

/** `0.5 in end mill, 3 teeth, sticks out 1.25 in`. */
export function toolLine({ used }: ProveoutTool, units: ShownUnits): string {
  const stickout = used.tool?.stickout_mm?.value;
  if (stickout === undefined && turns(used.tool?.kind?.value)) return toolWords(used.tool, units);
  const out =
    stickout === undefined
      ? 'stickout not known'
      : `sticks out ${formatQuantity('length_mm', stickout, units)}`;
  return `${toolWords(used.tool, units)}, ${out}`;
}

/** Turning tools stand in a turret: their stickout is that of their holder. */
const turns = (kind: string | undefined): boolean =>
  kind === 'turn' || kind === 'groove' || kind === 'part-off' || kind === 'thread-turn';

export function toolName({ used }: ProveoutTool): string {
  return used.number >= 0 ? `T${used.number}` : 'no number';
}

export function stopWords(stop: Stop): string {
  const tool = stop.tool === undefined ? '' : `, T${stop.tool}`;
  const optional = stop.code === 'M1' ? ' (optional stop on)' : '';
  return `line ${stop.line + 1} ${stop.code}${optional}${tool}${stop.why === '' ? '' : `: ${stop.why}`}`;
}

/** An offset to set and look at: what the program expects of it. */
export interface OffsetRow {
  name: string;
  expected: string;
}

/** Work, length and radius offsets that the program asks for, with what is known of each. */
export function offsetRows(review: Review, sheet: ProveoutSheet): OffsetRow[] {
  const { shown, machine } = review.program;
  const rows: OffsetRow[] = sheet.work_offsets.map((name, i) => ({
    name,
    expected: zeroWords(review, name, i === 0),
  }));
  if (rows.length === 0)
    rows.push({
      name: 'work offset',
      expected: `the program states none, the one in force counts; ${zeroWords(review, '', true)}`,
    });
  for (const tool of sheet.tools) {
    const name = toolName(tool);
    for (const number of tool.length_offsets)
      rows.push({
        name: `${review.program.kind === 'lathe' ? 'offset ' : 'H'}${number}`,
        expected: `${review.program.kind === 'lathe' ? 'geometry and wear' : 'length'} of ${name}`,
      });
    for (const number of tool.radius_offsets) {
      const diameter = tool.used.tool?.diameter_mm?.value;
      const radius = diameter === undefined ? '' : `, ${formatQuantity('length_mm', diameter / 2, shown)}`;
      const mode = machine?.compensation?.value;
      const expected =
        mode === 'wear-only'
          ? `wear alone of ${name}, near 0`
          : mode === 'part-edge'
            ? `radius of ${name}${radius}`
            : `radius or wear of ${name}: the sheet does not say which`;
      rows.push({ name: `D${number}`, expected });
    }
  }
  return rows;
}

function zeroWords({ program }: Review, name: string, first: boolean): string {
  const { sheet, shown } = program;
  const own = sheet?.setups?.get(name);
  const stock = own?.stock ?? (first ? sheet?.workpiece?.stock : undefined);
  const zero = own?.zero_mm?.value ?? (stock?.shape === 'block' ? stock.zero_mm?.value : undefined);
  const unit = shown === 'inch' ? 'in' : 'mm';
  if (zero) {
    const [x, y, z] = zero.map(mm => bare(mm, shown));
    return `zero is X${x} Y${y} Z${z} ${unit} from the stock's low corner`;
  }
  if ((stock?.shape === 'bar' || stock?.shape === 'from') && stock.face_mm)
    return `the ${stock.shape === 'bar' ? "bar's" : "part's"} end face is at Z${bare(stock.face_mm.value, shown)} ${unit}`;
  return 'as set up; the sheet does not say where zero sits';
}

/** A length without its unit. */
function bare(mm: number, units: ShownUnits): string {
  return showQuantity('length_mm', mm, units).number;
}

/** Threads of taps and threading tools, for go and no-go. */
export function gaugeRows(sheet: ProveoutSheet, units: ShownUnits): string[] {
  return sheet.tools
    .filter(tool => tool.locked || tool.used.tool?.kind?.value === 'thread-mill')
    .map(tool => {
      const { diameter_mm, pitch_mm } = tool.used.tool ?? {};
      const parts = [
        diameter_mm && formatQuantity('length_mm', diameter_mm.value, units),
        pitch_mm &&
          `pitch ${formatQuantity('length_mm', pitch_mm.value, units)}${perInch(pitch_mm.value, units)}`,
      ].filter(part => part !== undefined);
      return `${toolName(tool)} thread${parts.length > 0 ? ` ${parts.join(', ')}` : ''}`;
    });
}

function perInch(pitch_mm: number, units: ShownUnits): string {
  return units === 'inch' ? ` (${Number((25.4 / pitch_mm).toFixed(2))} an inch)` : '';
}
