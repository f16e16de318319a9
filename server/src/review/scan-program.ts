import { S, type StepTable, type Stretch } from '../rs274/index.ts';
import { Slot } from '../rs274/slot.ts';
import { linesBefore, type Piece, summedInPieces, whereItStands } from './blocks.ts';
import type { Program } from './program.ts';
import type { Hole, Marks, Scan } from './scan-marks.ts';
import { joinScans } from './scan-piece.ts';
import { scanTable } from './scan-table.ts';

const byProgram = new Slot<Program, Marks>();

/** The marks of a program, with lines of the program; each piece is looked at once. */
export function scanOf(program: Program): Marks {
  let scan = byProgram.get(program);
  if (!scan) {
    const kind = program.kind === 'lathe' ? LATHE : MILL;
    const pieces = kind.pieces(program.reading);
    scan = new PlacedMarks(
      joinScans(
        pieces.map(piece => ({ value: kind.placed(piece), by: 0 })),
        kind.lathe,
      ),
    );
    byProgram.set(program, scan);
  }
  return scan;
}

/** Marks with lines of the program. Holes are placed when somebody asks: a finishing program plunges ten thousand times. */
class PlacedMarks implements Marks {
  readonly vias: Marks['vias'];
  readonly feedsUp: Marks['feedsUp'];
  readonly turnedArcs: Marks['turnedArcs'];
  readonly sideways: Marks['sideways'];
  readonly axes: Marks['axes'];
  private placed: readonly Hole[] | undefined;

  constructor(private readonly scan: Scan) {
    this.vias = scan.vias;
    this.feedsUp = scan.feedsUp;
    this.turnedArcs = scan.turnedArcs;
    this.sideways = scan.sideways;
    this.axes = scan.axes;
  }

  get holes(): readonly Hole[] {
    const { holes, lines } = this.scan.holes.list();
    this.placed ??= holes.map((hole, i) => (hole.line === lines[i] ? hole : { ...hole, line: lines[i] }));
    return this.placed;
  }

  findHole(wanted: (hole: Hole) => boolean): Hole | undefined {
    const { holes, lines } = this.scan.holes.list();
    const at = holes.findIndex(wanted);
    return at < 0 ? undefined : { ...holes[at], line: lines[at] };
  }
}

const MILL = scanner(false);
const LATHE = scanner(true);

function scanner(lathe: boolean) {
  const join = (pieces: readonly Piece<Scan>[]) => joinScans(pieces, lathe);
  const held = new Slot<Stretch, Scan>();
  const scanOne = (stretch: Stretch, again: boolean): Scan => {
    const known = held.get(stretch);
    const scan = known ?? scanTable(stretch.steps, startOf(stretch), lathe);
    if (again !== (known !== undefined)) held.set(stretch, again ? scan : undefined);
    return scan;
  };
  return {
    lathe,
    held,
    pieces: summedInPieces(
      (stretches, again) =>
        join(linesBefore(stretches).map(({ stretch, by }) => ({ value: scanOne(stretch, again), by }))),
      join,
    ),
    placed: whereItStands((value: Scan, by) => join([{ value, by }])),
  };
}

/** Looks at a stretch while its steps are at hand (`steps`: as they were recorded); taken up when its block is joined. */
export function scanStretch(stretch: Stretch, steps: StepTable, lathe: boolean): void {
  const { held } = lathe ? LATHE : MILL;
  held.set(stretch, scanTable(steps, startOf(stretch), lathe, stretch.steps));
}

function startOf({ stateIn: { v } }: Stretch): { x: number; y: number; z: number } {
  return { x: v[S.x], y: v[S.y], z: v[S.z] };
}
