import { isTurningTool } from '../materials/tool-kind.ts';
import {
  type CommentContext,
  type CommentFields,
  type CommentReading,
  inMm,
  unitsDoubt,
} from './comment-reading.ts';
import { around, type CommentScan, type WordedPattern, type WrittenSize, worded } from './comment-scan.ts';
import { product } from './quantity.ts';

const label = String.raw`\s*(?:[=:]|-(?=\s))?\s*`;
const notTheTool =
  '(?:HOLE|MINOR|MAJOR|PILOT|STOCK|BAR|BORE|PITCH|NECK|PART|FINISH(?:ED)?|HEAD|HOLDER|BOLT|THREAD|ROOT)';
const diaWord = String.raw`DIAM?(?:ETER|ETRO|ETRE)?(?![A-Z])\.?`;
export const patterns = {
  foreignDiameter: around('DIA', String.raw`(?<![A-Z])${notTheTool}\s+${diaWord}${label}%`),
  shank: around('SHANK|SHK', String.raw`(?<![A-Z])SH(?:AN)?K(?:\s+${diaWord})?${label}%`),
  shankBehind: around('SHANK|SHK', String.raw`%\s*(?:${diaWord}\s*)?SH(?:AN)?K(?![A-Z])`),
  deepest: worded('ZMIN', /(?<![A-Z])ZMIN\s*=\s*([+-]?\d*\.?\d*)/),
  noseRadius: around(
    'NOSE|TNR|NR',
    String.raw`(?<![A-Z])(?:(?:TOOL )?NOSE R(?:AD(?:IUS)?)?|TNR|NR)(?![A-Z])\.?${label}%`,
  ),
  noseRadiusBehind: around('NOSE|TNR|NR', String.raw`%\s*(?:TNR|NR|NOSE R(?:AD(?:IUS)?)?)(?![A-Z])`),
  cornerRadius: around(
    'CR|C.R.|CORNER|TIP',
    String.raw`(?<![A-Z])(?:CR|C\.R\.|CORNER R(?:AD(?:IUS)?)?|TIP R(?:AD(?:IUS)?)?)(?![A-Z])\.?${label}%`,
  ),
  cornerRadiusBehind: around(
    'CR|CORNER|RAD',
    String.raw`%\s*(?:CR|CORNER R(?:AD(?:IUS)?)?|RAD(?:IUS)?)(?![A-Z])`,
  ),
  cornerRadiusGlued: around('R', String.raw`(?=\d*\.\d)%R(?![A-Z0-9])`),
  cornerRadiusShort: around('R', String.raw`(?<![A-Z])R(?=\d*\.\d)%`),
  fluteLength: around(
    'LOC|L.O.C.|LENGTH',
    String.raw`(?<![A-Z])(?:LOC|L\.O\.C\.|FLUTE LENGTH|LENGTH OF CUT)(?![A-Z])${label}%`,
  ),
  fluteLengthBehind: around(
    'LOC|L.O.C.|LENGTH',
    String.raw`%\s*(?:LOC|L\.O\.C\.|FL(?:UTE)? LENGTH|LENGTH OF CUT)(?![A-Z])`,
  ),
  stickout: around(
    'STICK|PROJ|OUT',
    String.raw`(?<![A-Z])(?:STICK[ -]?OUT|PROJ(?:ECTION)?|OUT OF HOLDER)(?![A-Z])\.?${label}%`,
  ),
  stickoutBehind: around(
    'STICK|PROJ|OUT',
    String.raw`%\s*(?:STICK[ -]?OUT|PROJ(?:ECTION)?|OUT OF HOLDER)(?![A-Z])`,
  ),
  length: around('=|:', String.raw`(?<![A-Z])(?:L|LEN(?:GTH)?|OAL)(?![A-Z])\.?\s*[=:]\s*%`),
  width: around('WIDTH', `(?<![A-Z])WIDTH${label}%`),
  widthBehind: around('WIDTH|WIDE', String.raw`%\s*(?:WIDTH|WIDE)(?![A-Z])`),
  diameter: around('DIA', `(?<![A-Z])${diaWord}${label}%`),
  diameterShort: around('D', String.raw`(?<![A-Z])D\s*[=:]\s*%`),
  diameterSign: around('Ø|⌀', String.raw`[Ø⌀]\s*%`),
  diameterGlued: around('D', String.raw`(?<![A-Z])D(?=\d*\.|\d+ ?(?:MM|")|\d+\/)%`),
  diameterBetween: around('DIA', String.raw`%\s*${diaWord}\s+(?=[\d.])`),
  diameterBehind: around('DIA', String.raw`%\s*(?:${diaWord})`),
  angle: worded(
    'DEG|°|º|*',
    /(?:TAPER\s*=?\s*)?(\d{1,3}(?:\.\d{0,3})?)\s*-?(?:DEG(?:REES?)?(?![A-Z])|[°º*](?!\d))/,
  ),
  teeth: worded(
    'FL|TEETH|TOOTH|FILO|SCHNEIDEN|DIENTES',
    /(?<![\d.])(\d{1,3})(?:\.0*)?\s*-?\s*(?:FLUTE[SD]?|FLTS?|FLS?|TEETH|TOOTH|FILOS?|SCHNEIDEN|DIENTES)(?:\d{3})?(?![A-Z])/,
  ),
  teethLabel: worded(
    'FLUTE|TEETH|NOF',
    /(?<![A-Z])(?:NUMBER OF )?(?:FLUTES?|TEETH|NOF)\s*[=:]\s*(\d{1,3})(?![\d.]*\d)/,
  ),
  teethWord: worded(
    'SINGLE|ONE|TWO|THREE|FOUR|FIVE|SIX',
    /(?<![A-Z])(SINGLE|ONE|TWO|THREE|FOUR|FIVE|SIX)[ -](?:FLUTE[SD]?|FL|TEETH|TOOTH)(?![A-Z])/,
  ),
  tip: worded('TIP', /TOOL TIP\s*[=:]?\s*(\d)(?!\d)|TIP DIR\w*\s*[=:]?\s*(\d)/),
};
const teethWords: Record<string, number> = { SINGLE: 1, ONE: 1, TWO: 2, THREE: 3, FOUR: 4, FIVE: 5, SIX: 6 };

/** Takes the sizes that are named: diameter, radii, lengths, width, teeth, angle, speeds. */
export function takeLabels(scan: CommentScan, reading: CommentReading, context: CommentContext): void {
  const { fields, asides } = reading;
  const mm = (size: WrittenSize | undefined): number | undefined => size && inMm(size, context.units);
  const set = (
    name:
      | 'corner_radius_mm'
      | 'nose_radius_mm'
      | 'flute_length_mm'
      | 'stickout_mm'
      | 'width_mm'
      | 'shank_diameter_mm'
      | 'diameter_mm',
    ...tries: WordedPattern[]
  ): void => {
    for (const pattern of tries) {
      const size = scan.takeSize(pattern);
      if (!size) continue;
      const value = mm(size);
      if (value === undefined) reading.doubts.push(unitsDoubt(name, size));
      else fields[name] = value;
      return;
    }
  };
  const deepest = scan.take(patterns.deepest);
  if (deepest && context.units)
    asides.deepest_z_mm = product(Number(deepest[1]), context.units === 'inch' ? 25.4 : 1);
  takeSpeeds(scan, reading, context);
  scan.drop(patterns.foreignDiameter);
  set('shank_diameter_mm', patterns.shank, patterns.shankBehind);
  const tip = scan.take(patterns.tip);
  if (tip) fields.tip_direction = Number(tip[1] ?? tip[2]);
  if (scan.rest.includes('FULL RADIUS')) scan.drop(/FULL RADIUS/);
  set('nose_radius_mm', patterns.noseRadius, patterns.noseRadiusBehind);
  const turning = fields.kind !== undefined && isTurningTool(fields.kind);
  const radius =
    turning || (!fields.kind && context.machine === 'lathe') ? 'nose_radius_mm' : 'corner_radius_mm';
  const short =
    fields.kind && fields.kind !== 'ball-mill'
      ? [patterns.cornerRadiusGlued, patterns.cornerRadiusShort]
      : [];
  set(radius, patterns.cornerRadius, patterns.cornerRadiusBehind, ...short);
  set('flute_length_mm', patterns.fluteLength, patterns.fluteLengthBehind);
  set('stickout_mm', patterns.stickout, patterns.stickoutBehind);
  set('width_mm', patterns.width, patterns.widthBehind);
  const length = mm(scan.takeSize(patterns.length));
  if (length !== undefined) asides.length_mm = length;
  const angle = scan.take(patterns.angle);
  if (angle) takeAngle(Number(angle[1]), angle[0].startsWith('TAPER'), fields);
  const teeth = scan.take(patterns.teethLabel) ?? scan.take(patterns.teeth);
  const word = teeth ? undefined : scan.take(patterns.teethWord);
  const count = teeth ? Number(teeth[1]) : word ? teethWords[word[1] ?? ''] : undefined;
  if (count !== undefined && count >= 1 && count <= 100) fields.teeth = count;
  if (scan.take(patterns.diameterBetween)) {
    reading.doubts.push({ about: 'diameter_mm', why: 'a number stands on both sides of "DIA"', choices: [] });
    return;
  }
  const before = fields.diameter_mm;
  delete fields.diameter_mm;
  set(
    'diameter_mm',
    patterns.diameter,
    patterns.diameterShort,
    patterns.diameterSign,
    patterns.diameterGlued,
    patterns.diameterBehind,
  );
  if (before !== undefined) fields.diameter_mm = before;
}

/** TAPER is the half angle of a chamfer mill and the full point angle of drills; an angle alone is read only where it is one of the usual ones. */
function takeAngle(angle_deg: number, taper: boolean, fields: CommentFields): void {
  const full = fields.kind === 'drill' || fields.kind === 'spot-drill' || fields.kind === 'center-drill';
  if (full && angle_deg >= 30 && angle_deg < 180) fields.point_angle_deg = angle_deg;
  if (fields.kind !== 'chamfer-mill') return;
  if (taper && angle_deg > 0 && angle_deg < 90) fields.point_angle_deg = 2 * angle_deg;
  else if (!taper && angle_deg === 45) fields.point_angle_deg = 90;
  else if (!taper && (angle_deg === 90 || angle_deg === 82 || angle_deg === 100 || angle_deg === 120))
    fields.point_angle_deg = angle_deg;
}

const number = String.raw`(\d+\.?\d*|\.\d+)`;
export const speeds = {
  surface: worded(
    'SFM|SFPM|FPM|M/MIN',
    new RegExp(String.raw`(?:VC\s*=?\s*)?${number}\s*(SFM|SFPM|FPM|M\/MIN)(?![A-Z])`),
  ),
  perTooth: worded(
    'CPT|IPT|FPT|LOAD',
    new RegExp(String.raw`${number}\s*(?:CPT|IPT|FPT|CHIP ?LOAD)(?![A-Z])`),
  ),
  named: worded(
    'SPEED|FEED|RPM|VC|FZ|VF|IPM|SFM',
    new RegExp(
      String.raw`(?:(?:SPEED|FEED|RPM|VC|FZ|VF|IPM|SFM)\s*[=:]?\s*)${number}\s*\.?\s*(?:RPM|IPM|IPR|MM\/MIN|MMPM|MM\/REV|SFM)?(?![A-Z])`,
    ),
  ),
  counted: worded(
    'RPM|IPM|IPR|MM|REV|U/MIN|PERCENT|%',
    new RegExp(
      String.raw`${number}\s*\.?\s*(?:RPM|IPM|IPR|MMPM|MM\/MIN|MM\/REV|MM\/TOOTH|REV|U\/MIN|PERCENT|%)(?![A-Z])`,
    ),
  ),
};

function takeSpeeds(scan: CommentScan, { asides }: CommentReading, { units }: CommentContext): void {
  const surface = scan.take(speeds.surface);
  if (surface) asides.surface_speed_m_min = product(Number(surface[1]), surface[2] === 'M/MIN' ? 1 : 0.3048);
  const perTooth = scan.take(speeds.perTooth);
  if (perTooth && units) asides.chip_load_mm = product(Number(perTooth[1]), units === 'inch' ? 25.4 : 1);
  scan.drop(speeds.named);
  scan.drop(speeds.counted);
}
