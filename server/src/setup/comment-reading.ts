import type { WrittenSize } from './comment-scan.ts';
import { product, type SheetUnits } from './quantity.ts';
import type { Substrate, ToolKind } from './tool-keys.ts';

/** What the text of one tool comment says; only what can be read one way. Lengths in mm. */
export type CommentFields = {
  kind?: ToolKind;
  diameter_mm?: number;
  teeth?: number;
  corner_radius_mm?: number;
  nose_radius_mm?: number;
  tip_direction?: number;
  flute_length_mm?: number;
  stickout_mm?: number;
  shank_diameter_mm?: number;
  point_angle_deg?: number;
  pitch_mm?: number;
  hand?: 'right' | 'left';
  width_mm?: number;
  substrate?: Substrate;
  coating?: string;
  insert?: string;
};

/** Read, but no property of the tool that the review may use as one. */
export type CommentAsides = {
  /** A length of which it is not said whether it is stickout or overall. */
  length_mm?: number;
  deepest_z_mm?: number;
  surface_speed_m_min?: number;
  chip_load_mm?: number;
};

/** Why a size was not read, and the readings a person can choose from. */
export type CommentDoubt = {
  about: keyof CommentFields;
  why: string;
  choices: { value: number; text: string }[];
};

/** One comment, read. */
export type CommentReading = {
  number: number | undefined;
  fields: CommentFields;
  asides: CommentAsides;
  doubts: CommentDoubt[];
  uncertain: string | undefined;
  /** The comment calls itself one of a tool: a tool number, or the word. */
  marked: boolean;
};

/** What helps to read a comment: the program's units, mill or lathe, and the tool numbers it uses. */
export type CommentContext = {
  units: SheetUnits | undefined;
  machine?: 'mill' | 'lathe' | undefined;
  tools?: ReadonlySet<number>;
};

/** A written size in mm: its own unit, else inches for fractions, else the program's units; undefined when none is known. */
export function inMm(size: WrittenSize, units: SheetUnits | undefined): number | undefined {
  const unit = size.unit ?? (size.form === 'fraction' ? 'inch' : units);
  if (size.value === 0 && !unit) return 0;
  return unit === undefined ? undefined : product(size.value, unit === 'inch' ? 25.4 : 1);
}

export function unitsDoubt(about: keyof CommentFields, size: WrittenSize): CommentDoubt {
  return {
    about,
    why: `"${size.value}" has no unit, and the program does not state its units`,
    choices: [choice(size.value), choice(product(size.value, 25.4))],
  };
}

export function wholeChoices(value: number): { value: number; text: string }[] {
  const thousandths =
    value >= 100 && value < 1000 ? [{ value: product(value / 1000, 25.4), text: `.${value} in` }] : [];
  return [
    ...thousandths,
    ...(value <= 100 ? [{ value, text: `${value} mm` }] : []),
    ...(value <= 12 ? [{ value: product(value, 25.4), text: `${value} in` }] : []),
  ];
}

export function choice(value_mm: number): { value: number; text: string } {
  return { value: value_mm, text: `${rounded(value_mm)} mm` };
}

export function rounded(value: number): number {
  return Number(value.toPrecision(5));
}
