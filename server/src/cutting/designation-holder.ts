import {
  BAR_BODY,
  cornerToFarSide,
  HOLDER_CLAMPING,
  HOLDER_EDGE_ANGLE_DEG,
  HOLDER_LENGTH_MM,
  INCH_HOLDER_STYLES,
  INSERT_CLEARANCE_DEG,
  INSERT_SHAPES,
  type InsertShape,
} from './designation-letters.ts';
import type { Absent } from './result.ts';
import { absent } from './result.ts';

/** What a turning holder's designation says. Lengths mm, angles degrees. */
export interface HolderFacts {
  readonly system: 'ISO 5608' | 'ISO 6261' | 'ANSI B212.5';
  readonly clamping: string;
  readonly insert_shape: InsertShape;
  /** Tool cutting edge angle, KAPR. */
  readonly edge_angle_deg: number | Absent;
  readonly clearance_deg: number | Absent;
  readonly hand: 'right' | 'left' | 'neutral';
  readonly shank_height_mm?: number;
  readonly shank_width_mm?: number;
  /** Distance of the corner from the far side of the shank, across it. */
  readonly corner_to_far_side_mm?: number;
  readonly length_mm?: number;
  /** Of a boring bar: what it is made of, and whether that is carbide. */
  readonly bar?: { readonly diameter_mm: number; readonly body: string; readonly carbide: boolean };
}

const gap = '[\\s_-]*';
const body = `([A-Z])${gap}([A-Z])${gap}([A-Z])${gap}([A-Z])${gap}([RLN])`;
const metric = /* @__PURE__ */ (() =>
  new RegExp(`^${gap}${body}${gap}(\\d{2})${gap}[X]?${gap}(\\d{2})${gap}([A-Y])${gap}(\\d{2})(?![0-9])`))();
const inch = /* @__PURE__ */ (() =>
  new RegExp(`^${gap}${body}${gap}(\\d{2})${gap}(\\d)(?:${gap}([A-Z]))?(?![0-9])`))();
const bar = /* @__PURE__ */ (() =>
  new RegExp(`^${gap}([A-Z])${gap}(\\d{2})${gap}([A-Y])${gap}${body}${gap}(\\d{2})(?![0-9])`))();

/**
 * Decodes a turning holder (`PCLNR2525M12`), a boring bar (`S25T-SCLCR09`) or an inch holder (`MCLNR 16-4D`).
 * @formula the third letter of the body gives the tool cutting edge angle KAPR: A 90, B 75, D 45, J 93, L 95, ... by table
 * @units none in; mm and degrees out
 * @range upper or lower case, blanks and dashes do not count; special styles (X, Q) have no edge angle; anything else is absent with the reason
 * @source ISO 5608, ISO 6261 and ANSI B212.5, from memory
 */
export function decodeHolder(designation: string): HolderFacts | Absent {
  const text = designation.slice(0, 60).toUpperCase();
  const asHolder = metric.exec(text);
  if (asHolder !== null) {
    const facts = bodyFacts('ISO 5608', asHolder.slice(1, 6));
    const [height, width] = [Number(asHolder[6]), Number(asHolder[7])];
    const shank = {
      ...(height > 0 ? { shank_height_mm: height } : {}),
      ...(width > 0 ? { shank_width_mm: width } : {}),
      ...farSide(asHolder[3], width),
    };
    return 'absent' in facts ? facts : { ...facts, ...shank, ...lengthOf(asHolder[8]) };
  }
  const asBar = bar.exec(text);
  if (asBar !== null) {
    const kind = own(BAR_BODY, asBar[1] ?? '');
    if (kind === undefined) return absent(`${asBar[1]} is not a kind of boring bar`);
    const facts = bodyFacts('ISO 6261', asBar.slice(4, 9));
    if ('absent' in facts) return facts;
    const diameter_mm = Number(asBar[2]);
    return { ...facts, ...lengthOf(asBar[3]), bar: { diameter_mm, body: kind.text, carbide: kind.carbide } };
  }
  const asInch = inch.exec(text);
  if (asInch === null) return absent('not a holder designation of ISO 5608, ISO 6261 or ANSI B212.5');
  const facts = bodyFacts('ANSI B212.5', asInch.slice(1, 6));
  if ('absent' in facts) return facts;
  // Even figures are square shanks in sixteenths of an inch; others name a width and a height that are not in a rule.
  const sixteenths = Number(asInch[6]);
  const side = (sixteenths * 25.4) / 16;
  const square = sixteenths > 0 && sixteenths % 2 === 0;
  return square ? { ...facts, shank_height_mm: side, shank_width_mm: side } : facts;
}

function bodyFacts(
  system: HolderFacts['system'],
  [clampLetter = '', shapeLetter = '', style = '', clearanceLetter = '', handLetter = '']: readonly string[],
): HolderFacts | Absent {
  const clamping = own(HOLDER_CLAMPING, clampLetter);
  const insert_shape = INSERT_SHAPES.get(shapeLetter);
  const clearance = own(INSERT_CLEARANCE_DEG, clearanceLetter);
  if (clamping === undefined) return absent(`${clampLetter} is not a kind of clamping`);
  if (insert_shape === undefined) return absent(`${shapeLetter} is not an insert shape`);
  if (clearance === undefined && clearanceLetter !== 'O')
    return absent(`${clearanceLetter} is not a clearance`);
  const known = system !== 'ANSI B212.5' || INCH_HOLDER_STYLES.includes(style);
  const angle = known ? own(HOLDER_EDGE_ANGLE_DEG, style) : undefined;
  return {
    system,
    clamping,
    insert_shape,
    edge_angle_deg: angle ?? absent(`holder style ${style} has no edge angle of its own`, ['edge_angle_deg']),
    clearance_deg: clearance ?? absent('clearance is special'),
    hand: handLetter === 'R' ? 'right' : handLetter === 'L' ? 'left' : 'neutral',
  };
}

function farSide(style: string | undefined, width_mm: number): { corner_to_far_side_mm?: number } {
  const corner_to_far_side_mm = cornerToFarSide(style ?? '', width_mm);
  return corner_to_far_side_mm === undefined ? {} : { corner_to_far_side_mm };
}

function lengthOf(letter: string | undefined): { length_mm?: number } {
  const length_mm = own(HOLDER_LENGTH_MM, letter ?? '');
  return length_mm === undefined ? {} : { length_mm };
}

function own<T>(table: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(table, key) ? table[key] : undefined;
}
