import type { ToolKnown } from '../../setup/index.ts';
import { type Cutter, type CutterKind, type CutterSpec, cutter } from '../../stock/cutter.ts';
import {
  type TurningKind,
  type TurningSpec,
  type TurningTool,
  turningTool,
} from '../../stock/turning-tool.ts';

/** A tool ready to cut stock, or why there is none. */
export type CutterResult = { cutter: Cutter; spec: CutterSpec; notes: string[] } | { why: string };

const SHAPES: Partial<Record<string, CutterKind>> = {
  'end-mill': 'flat',
  'ball-mill': 'ball',
  'bull-mill': 'bull-nose',
  'face-mill': 'face',
  'chamfer-mill': 'cone',
  'slot-mill': 'slot',
  drill: 'drill',
  'spot-drill': 'cone',
  'center-drill': 'cone',
  reamer: 'flat',
  bore: 'flat',
};

/** Point angle of a common twist drill, taken where none is stated (common practice, no source). */
const COMMON_POINT_DEG = 118;

/** The solid of revolution that a tool cuts with on a mill. */
export function cutterOf(tool: ToolKnown | undefined): CutterResult {
  const kind = tool?.kind?.value;
  if (!tool || !kind) return { why: 'what kind of tool it is' };
  const shape = SHAPES[kind];
  if (!shape) return { why: `how a ${kind} cuts` };
  if (!tool.diameter_mm) return { why: 'diameter' };
  const notes: string[] = [];
  const corner = tool.corner_radius_mm?.value;
  const rounded = shape === 'flat' && corner !== undefined && corner > 0;
  let point = tool.point_angle_deg?.value;
  if (shape === 'drill' && point === undefined) {
    point = COMMON_POINT_DEG;
    notes.push(`point angle taken as ${COMMON_POINT_DEG} degrees`);
  }
  const spec: CutterSpec = {
    kind: rounded ? 'bull-nose' : shape,
    diameter_mm: tool.diameter_mm.value,
    corner_radius_mm: corner,
    point_angle_deg: point,
    flute_length_mm: tool.flute_length_mm?.value,
    shank_diameter_mm: tool.shank_diameter_mm?.value,
    stickout_mm: tool.stickout_mm?.value,
    holder_diameter_mm: tool.holder_diameter_mm?.value,
  };
  const made = cutter(spec);
  return 'missing' in made
    ? { why: made.missing }
    : { cutter: made, spec, notes: [...notes, ...made.not_modelled] };
}

/** What a turning tool leaves at a shoulder hardly depends on its edge angle: upright where none is stated (common practice, no source). */
export const COMMON_EDGE_DEG = 90;

const TURNING: ReadonlySet<string> = new Set(['turn', 'bore-bar', 'groove', 'part-off', 'thread-turn']);

/** The outline of a single-point tool on a lathe, seen from the point that the program moves; `inside` for grooves and threads in a bore. */
export function turningToolOf(
  tool: ToolKnown | undefined,
  inside = false,
): { tool: TurningTool } | { why: string } {
  const kind = tool?.kind?.value;
  if (!tool || !kind) return { why: 'what kind of tool it is' };
  if (!TURNING.has(kind)) return { why: `how a ${kind} turns` };
  const made = turningTool({
    kind: kind as TurningKind,
    nose_radius_mm: tool.nose_radius_mm?.value,
    edge_angle_deg: tool.edge_angle_deg?.value ?? COMMON_EDGE_DEG,
    point_angle_deg: tool.point_angle_deg?.value ?? (kind === 'thread-turn' ? 60 : undefined),
    width_mm: tool.width_mm?.value,
    ...tipOf(tool.tip_direction?.value),
    inside,
  });
  return 'missing' in made ? { why: made.missing } : { tool: made };
}

/** Whether the outline of a turning tool rests on an edge angle that nobody stated. */
export function edgeTaken(tool: ToolKnown | undefined): boolean {
  const kind = tool?.kind?.value;
  return (kind === 'turn' || kind === 'bore-bar') && tool?.edge_angle_deg === undefined;
}

/** What part of the nose the programmed point is; tips on the side of +Z cut away from the chuck. */
function tipOf(direction: number | undefined): Pick<TurningSpec, 'tip' | 'towards_plus_z'> {
  const away = direction === 1 || direction === 4 || direction === 5 ? { towards_plus_z: true } : {};
  if (direction === 0 || direction === 9) return { tip: 'centre' };
  if (direction === 6 || direction === 8) return { tip: 'x-edge' };
  return { tip: direction === 5 || direction === 7 ? 'z-edge' : 'corner', ...away };
}
