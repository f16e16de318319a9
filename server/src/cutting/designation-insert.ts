import {
  CORNER_CHAMFER_DEG,
  INSCRIBED_CIRCLES_MM,
  INSERT_CLEARANCE_DEG,
  INSERT_FIXING,
  INSERT_SHAPES,
  INSERT_THICKNESS_MM,
  INSERT_TOLERANCES_MM,
  type InsertShape,
} from './designation-letters.ts';
import type { Absent } from './result.ts';
import { absent, isAbsent } from './result.ts';

/** What an insert's designation says. Lengths mm, angles degrees. */
export interface InsertFacts {
  readonly system: 'ISO 1832' | 'ANSI B212.4';
  readonly shape: InsertShape;
  readonly corner_angle_deg: number | Absent;
  readonly clearance_deg: number | Absent;
  readonly tolerance: { readonly letter: string } & (typeof INSERT_TOLERANCES_MM)[string];
  readonly fixing: string;
  readonly inscribed_circle_mm: number | Absent;
  readonly edge_length_mm: number | Absent;
  readonly thickness_mm: number | Absent;
  readonly nose_radius_mm: number | Absent;
  /** Edge angle that a corner chamfer of a face-milling insert is made for. */
  readonly chamfer_edge_angle_deg?: number;
}

const gap = '[\\s_-]*';
const letters = /* @__PURE__ */ (() =>
  new RegExp(`^${gap}([A-Z])${gap}([A-Z])${gap}([A-Z])${gap}([A-Z])${gap}(?=[0-9(.])`))();
const metric = /* @__PURE__ */ (() =>
  new RegExp(`^(\\d{2})${gap}(\\d{2}|[TX]\\d)${gap}(\\d{2}|M0|V[35]|[ADEFPZ][A-GNPZ])(?![0-9.])`))();
const inch =
  /^\(?(1\.[258]|10|[2-9])\)?[\s-]*\(?(1\.[25]|[23]\.5|[1-9])\)?[\s-]*\(?(0\.[25]|[0-9]|X0)?\)?(?![0-9.])/;

/**
 * Decodes an insert's designation, metric (`CNMG120408`, `SEKN 1203AFTN`) or inch (`CNMG 432`, `CCMT 32.51`).
 * @formula edge length from the inscribed circle d by shape: rhombic d/sin(corner), regular d tan(180/corners), trigon 0.684 d; the figures are the edge length without its decimals; thickness and nose radius from the tables, nose radius in 0.1 mm. Inch: eighths, sixteenths and sixty-fourths of an inch. A round insert's nose radius is half its diameter
 * @units none in; mm and degrees out
 * @range upper or lower case, blanks and dashes between the places do not count; what follows the size (edge, hand, chip breaker) is not read; anything else is absent with the reason
 * @source ISO 1832 and ANSI B212.4, from memory
 */
export function decodeInsert(designation: string): InsertFacts | Absent {
  const text = designation.slice(0, 60).toUpperCase();
  const head = letters.exec(text);
  if (head === null) return absent('not an insert designation of ISO 1832 or ANSI B212.4');
  const [, shapeLetter = '', clearanceLetter = '', toleranceLetter = '', fixingLetter = ''] = head;
  const shape = INSERT_SHAPES.get(shapeLetter);
  const tolerance = own(INSERT_TOLERANCES_MM, toleranceLetter);
  const fixing = own(INSERT_FIXING, fixingLetter);
  const clearance = own(INSERT_CLEARANCE_DEG, clearanceLetter);
  if (shape === undefined) return absent(`${shapeLetter} is not an insert shape`);
  if (clearance === undefined && clearanceLetter !== 'O')
    return absent(`${clearanceLetter} is not a clearance`);
  if (tolerance === undefined) return absent(`${toleranceLetter} is not a tolerance class`);
  if (fixing === undefined) return absent(`${fixingLetter} is not a kind of fixing`);
  const rest = text.slice(head[0].length);
  const size = metricSize(shape, rest) ?? inchSize(shape, rest);
  if (size === undefined) return absent('size figures of the insert cannot be read');
  const circle = size.inscribed_circle_mm;
  const round = shape.letter === 'R';
  return {
    ...size,
    shape,
    corner_angle_deg: shape.corner_angle_deg ?? absent('a round insert has no corner'),
    clearance_deg: clearance ?? absent('clearance is special'),
    tolerance: { letter: toleranceLetter, ...tolerance },
    fixing,
    nose_radius_mm: round ? (isAbsent(circle) ? circle : circle / 2) : size.nose_radius_mm,
  };
}

type Size = Pick<
  InsertFacts,
  | 'system'
  | 'inscribed_circle_mm'
  | 'edge_length_mm'
  | 'thickness_mm'
  | 'nose_radius_mm'
  | 'chamfer_edge_angle_deg'
>;

function metricSize(shape: InsertShape, text: string): Size | undefined {
  const match = metric.exec(text);
  if (match === null) return undefined;
  const [, edgeFigures = '', thicknessFigures = '', corner = ''] = match;
  const circle = metricCircle(shape, edgeFigures, corner);
  const thickness = own(INSERT_THICKNESS_MM, thicknessFigures);
  const chamfer = /^[A-Z]{2}$/.test(corner) ? own(CORNER_CHAMFER_DEG, corner.charAt(0)) : undefined;
  return {
    system: 'ISO 1832',
    inscribed_circle_mm: circle,
    edge_length_mm: edgeLength(shape, circle) ?? Number(edgeFigures),
    thickness_mm: thickness ?? absent(`thickness ${thicknessFigures} is not of the standard series`),
    nose_radius_mm: metricRadius(corner),
    ...(chamfer === undefined ? {} : { chamfer_edge_angle_deg: chamfer }),
  };
}

function metricRadius(corner: string): number | Absent {
  if (/^\d{2}$/.test(corner)) return Number(corner) / 10;
  if (corner === 'V3') return 0.03;
  if (corner === 'V5') return 0.05;
  return absent('corner is chamfered or special, it has no nose radius');
}

/** The circle of the series whose edge, cut to whole millimetres, gives the figures. */
function metricCircle(shape: InsertShape, figures: string, corner: string): number | Absent {
  const ratio = shape.edge_per_circle;
  if (ratio === undefined)
    return absent(`inscribed circle does not follow from the edge of a ${shape.name} insert`);
  if (shape.letter === 'R' && corner === 'M0') return Number(figures);
  const matches = INSCRIBED_CIRCLES_MM.filter(circle => {
    // The smallest rhombic C is called 03 though its edge is 4.03 mm.
    if (shape.letter === 'C' && circle < 4) return figures === '03';
    return Math.floor(Number((circle * ratio).toFixed(1))) === Number(figures);
  });
  return matches.length === 1 ? matches[0]! : absent(`size ${figures} is not of the standard series`);
}

function inchSize(shape: InsertShape, text: string): Size | undefined {
  const match = inch.exec(text);
  if (match === null) return undefined;
  const [, eighths = '', sixteenths = '', corner] = match;
  const circle = inchCircle(eighths);
  return {
    system: 'ANSI B212.4',
    inscribed_circle_mm: shape.edge_per_circle === undefined ? absent('inscribed circle not stated') : circle,
    edge_length_mm: edgeLength(shape, circle) ?? absent('edge length not stated'),
    thickness_mm: inchThickness(sixteenths),
    nose_radius_mm:
      corner === undefined ? absent('nose radius not stated', ['nose_radius_mm']) : inchRadius(corner),
  };
}

/** Eighths of an inch; 1.2, 1.5 and 1.8 stand for 5, 6 and 7 thirty-seconds. */
function inchCircle(eighths: string): number {
  const thirtyseconds: Readonly<Record<string, number>> = { '1.2': 5, '1.5': 6, '1.8': 7 };
  return ((own(thirtyseconds, eighths) ?? Number(eighths) * 4) * 25.4) / 32;
}

/** Sixteenths of an inch; 1.2 stands for 5 sixty-fourths. */
function inchThickness(sixteenths: string): number {
  return sixteenths === '1.2' ? (5 * 25.4) / 64 : (Number(sixteenths) * 25.4) / 16;
}

/** Sixty-fourths of an inch; X0, 0.2 and 0.5 stand for 0.0015, 0.004 and 0.008 in. */
function inchRadius(corner: string): number {
  const inches: Readonly<Record<string, number>> = { X0: 0.0015, '0.2': 0.004, '0.5': 0.008 };
  return (own(inches, corner) ?? Number(corner) / 64) * 25.4;
}

function edgeLength(shape: InsertShape, circle: number | Absent): number | undefined {
  return isAbsent(circle) || shape.edge_per_circle === undefined ? undefined : circle * shape.edge_per_circle;
}

function own<T>(table: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(table, key) ? table[key] : undefined;
}
