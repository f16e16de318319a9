import { RUN } from '../../rs274/steps.ts';
import type { Stock, WorkSetup } from '../../setup/index.ts';
import { blockOf, blockOfKept } from '../../stock/end-state.ts';
import type { StockBlock } from '../../stock/grid.ts';
import type { KeepOutBox } from '../../stock/keep-out.ts';
import type { Part } from '../part.ts';
import type { Program } from '../program.ts';
import type { Asked, FromStock, Left, LeftNotes } from './earlier.ts';

const FRAME = RUN.frame;
type Point = readonly [number, number, number];

/** The raw part at one work offset, in that offset's coordinates; mm. */
export interface PlacedBlock {
  low: Point;
  high: Point;
  /** A round bar that stands on Z. */
  round?: { radius_mm: number; bore_mm?: number };
  keep_out: KeepOutBox[];
  /** What another program left, laid in cells. */
  cells?: StockBlock;
  not_modelled?: readonly string[];
}

export type Placed<T> =
  | {
      stock: T;
      assumed: boolean;
      /** Why it is assumed, when not from the program's own cuts. */
      assumed_why?: string;
    }
  | { why: string };

/** Margin that an assumed stock gets around the cuts, mm: none in Z, so that nothing is cut in air that was metal. */
const ASSUMED_MARGIN_MM = 0;

/** `G54` out of the run column of a frame (540); undefined while none is stated. */
export function frameName(frame: number): string | undefined {
  if (!(frame > 0) || frame === 530) return undefined;
  return frame > 54000 ? `G54.1 P${frame - 54100}` : `G${frame / 10}`;
}

/** Where the stock stands at a work offset: as the sheet says, else a box around the program's own cuts, marked as assumed. */
export function blockAtFrame(program: Program, frame: number, first: number): Placed<PlacedBlock> {
  const { sheet } = program;
  const name = frameName(frame);
  const setup = name === undefined ? undefined : resolved(sheet?.setups, name);
  const keep_out = boxesOf(setup);
  const own = setup?.stock ?? (frame === first || setup?.zero_mm ? sheet?.workpiece?.stock : undefined);
  if (own) {
    const placed = own.shape === 'from' ? placeLeft(program, own, setup) : placeBlock(own, setup);
    return 'why' in placed ? placed : { ...placed, stock: { ...placed.stock, keep_out } };
  }
  const box = assumedBox(program, frame);
  return box
    ? { stock: { ...box, keep_out }, assumed: true }
    : { why: 'no stock is stated, and the cuts at this work offset span no box to take for it' };
}

/** The stock of a lathe: the workpiece's, else that of G54, or of the one set-up that there is. */
export function latheStock({ sheet }: Pick<Program, 'sheet'>): Stock | undefined {
  return sheet?.workpiece?.stock ?? resolved(sheet?.setups, latheSetup(sheet?.setups))?.stock;
}

function latheSetup(setups: ReadonlyMap<string, WorkSetup> | undefined): string {
  return setups?.size === 1 ? [...setups.keys()][0] : 'G54';
}

/** Keep-out boxes of a work offset; a lathe program without one has those of G54, or of the one set-up that there is (`lathe`). */
export function keepOutsAt(program: Program, frame: number, lathe = false): KeepOutBox[] {
  const setups = program.sheet?.setups;
  const name = frameName(frame) ?? (lathe ? latheSetup(setups) : undefined);
  return name === undefined ? [] : boxesOf(resolved(setups, name));
}

function boxesOf(setup: WorkSetup | undefined): KeepOutBox[] {
  return (setup?.keep_out ?? []).map(box => ({
    what: box.what,
    low: asPoint(box.low_mm),
    high: asPoint(box.high_mm),
  }));
}

function resolved(setups: ReadonlyMap<string, WorkSetup> | undefined, name: string): WorkSetup | undefined {
  const setup = setups?.get(name);
  const other = setup?.same_as && setups?.get(setup.same_as.value.toUpperCase());
  return other ? { ...other, ...setup } : setup;
}

/** The stock that another program leaves. */
function placeLeft(
  program: Program,
  stock: FromStock,
  setup: WorkSetup | undefined,
): Placed<Omit<PlacedBlock, 'keep_out'>> {
  const left = leftFor(program, { stock, kind: 'mill', zero_mm: setup?.zero_mm?.value });
  if ('why' in left) return left;
  if ('bar' in left) return { why: `${stock.from.value} leaves a bar` };
  const held = 'state' in left ? left.state : left.kept;
  return {
    stock: {
      low: held.block.low,
      high: held.block.high,
      cells: 'state' in left ? blockOf(left.state) : blockOfKept(left.kept),
      not_modelled: [...held.not_modelled, ...(left.left_out ?? [])],
    },
    ...sureness(left),
  };
}

/** What the program before leaves. */
export function leftFor({ earlier }: Program, asked: Asked): Left {
  const name = asked.stock.from.value;
  return (
    earlier?.left(asked) ?? { why: `the stock is what ${name} leaves, and that program cannot be read here` }
  );
}

/** Whether a stock that another program leaves is known or assumed. */
export function sureness({ unsure }: LeftNotes): { assumed: boolean; assumed_why?: string } {
  return unsure === undefined ? { assumed: false } : { assumed: true, assumed_why: unsure };
}

function placeBlock(
  stock: Exclude<Stock, { shape: 'from' }>,
  setup: WorkSetup | undefined,
): Placed<Omit<PlacedBlock, 'keep_out'>> {
  if (stock.shape === 'bar') {
    const { diameter_mm, bore_mm, length_mm, face_mm } = stock;
    if (!length_mm || !face_mm) return { why: 'the bar needs its length and the Z of its face' };
    const radius_mm = diameter_mm.value / 2;
    return {
      stock: {
        low: [-radius_mm, -radius_mm, face_mm.value - length_mm.value],
        high: [radius_mm, radius_mm, face_mm.value],
        round: { radius_mm, ...(bore_mm ? { bore_mm: bore_mm.value } : {}) },
      },
      assumed: false,
    };
  }
  const zero = setup?.zero_mm ?? stock.zero_mm;
  if (!zero) return { why: 'the sheet does not say where program zero sits on the stock' };
  const size = stock.size_mm.value;
  return {
    stock: {
      low: [-zero.value[0], -zero.value[1], -zero.value[2]],
      high: [size[0] - zero.value[0], size[1] - zero.value[1], size[2] - zero.value[2]],
    },
    assumed: false,
  };
}

/** A box around the cutting moves of a frame, up to the highest of them or Z0. */
function assumedBox(program: Program, frame: number): Omit<PlacedBlock, 'keep_out'> | undefined {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const part of program.parts) {
    if (part.cut_steps === 0 || !sameFrame(part, frame)) continue;
    for (const axis of [0, 1, 2] as const) {
      if (part.low(axis) < low[axis]) low[axis] = part.low(axis);
      if (part.high(axis) > high[axis]) high[axis] = part.high(axis);
    }
  }
  if (!(low[0] <= high[0] && low[1] <= high[1] && low[2] < Math.max(0, high[2]))) return undefined;
  const grown = (values: number[], by: number): [number, number, number] => [
    values[0] + by,
    values[1] + by,
    values[2],
  ];
  const box = { low: grown(low, -ASSUMED_MARGIN_MM), high: grown(high, ASSUMED_MARGIN_MM) };
  box.high[2] = low[2] < 0 ? 0 : high[2];
  return box.high[0] > box.low[0] && box.high[1] > box.low[1] && box.high[2] > box.low[2] ? box : undefined;
}

function sameFrame(part: Part, frame: number): boolean {
  const own = part.run[FRAME];
  return own === frame || (Number.isNaN(own) && Number.isNaN(frame));
}

function asPoint(values: readonly number[]): [number, number, number] {
  return [values[0] ?? Number.NaN, values[1] ?? Number.NaN, values[2] ?? Number.NaN];
}
