import { holderBody } from './cuts/holder-body.ts';
import type { Program } from './program.ts';
import type { Need } from './rule.ts';
import type { ToolUse } from './tool-use.ts';
import { effectiveTeeth, isSinglePoint } from './working.ts';

/** What is missing, in words that follow "T3: ... is not known". */
export const NEED_WORDS: Record<Need, string> = {
  'tool.kind': 'the kind of tool',
  'tool.diameter': 'diameter',
  'tool.teeth': 'tooth count',
  'tool.pitch': 'thread pitch',
  'tool.hand': 'hand of cut',
  'tool.stickout': 'stickout',
  'tool.flute_length': 'flute length',
  'tool.corner_radius': 'corner radius',
  'tool.edge_radius': 'edge radius',
  'tool.point_angle': 'point angle',
  'tool.substrate': 'tool material',
  'tool.holder_body': 'the holder (holder_box)',
  material: 'workpiece material',
  units: 'the unit of length',
  'machine.max_rpm': "the machine's top spindle speed",
  'machine.power': "the machine's spindle power",
  'machine.torque': "the machine's spindle torque",
  'machine.max_feed': "the machine's top feed",
  'machine.travel': "the machine's travel",
  'machine.acceleration': "the machine's acceleration",
  'machine.block_rate': "the control's block rate",
  'workholding.max_rpm': 'the speed limit on the chuck plate',
  'workholding.force': 'holding force',
  stock: 'the stock',
  quote: 'the quoted time',
  record: "the shop's record",
};

const SPINDLE_TOOL_FIELDS = {
  'tool.kind': 'kind',
  'tool.diameter': 'diameter_mm',
  'tool.teeth': 'teeth',
  'tool.pitch': 'pitch_mm',
  'tool.hand': 'hand',
  'tool.stickout': 'stickout_mm',
  'tool.flute_length': 'flute_length_mm',
  'tool.corner_radius': 'corner_radius_mm',
  'tool.edge_radius': 'edge_radius_mm',
  'tool.point_angle': 'point_angle_deg',
  'tool.substrate': 'substrate',
} as const;

/** The first need that is not met, by what is known of the program and of the tool in use. */
export function missingNeed(needs: readonly Need[], program: Program, use?: ToolUse): Need | undefined {
  for (const need of needs) if (!isMet(need, program, use)) return need;
  return undefined;
}

type ToolField = (typeof SPINDLE_TOOL_FIELDS)[keyof typeof SPINDLE_TOOL_FIELDS];

/** Teeth of a single-point tool follow from its kind; the diameter that a turning tool cuts at is the work's. */
function isToolFieldMet(field: ToolField, program: Program, use: ToolUse | undefined): boolean {
  const tool = use?.tool;
  if (field === 'teeth') return effectiveTeeth(tool) !== undefined;
  if (field === 'diameter_mm' && program.kind === 'lathe' && isSinglePoint(tool?.kind?.value)) return true;
  return tool?.[field] !== undefined;
}

function isMet(need: Need, program: Program, use: ToolUse | undefined): boolean {
  if (need in SPINDLE_TOOL_FIELDS) {
    const field = SPINDLE_TOOL_FIELDS[need as keyof typeof SPINDLE_TOOL_FIELDS];
    return isToolFieldMet(field, program, use);
  }
  const { machine, sheet } = program;
  switch (need) {
    case 'tool.holder_body':
      return holderBody(use?.tool) !== undefined;
    case 'material':
      return program.material !== undefined;
    case 'units':
      return program.unitsKnown;
    case 'machine.max_rpm':
      return machine?.spindle?.max_rpm !== undefined;
    case 'machine.power':
      return machine?.spindle?.power_kw !== undefined;
    case 'machine.torque':
      return machine?.spindle?.torque_nm !== undefined;
    case 'machine.max_feed':
      return machine?.max_feed_mm_min !== undefined;
    case 'machine.travel':
      return machine?.travel_mm !== undefined;
    case 'machine.acceleration':
      return machine?.acceleration_m_s2 !== undefined;
    case 'machine.block_rate':
      return machine?.block_rate_per_s !== undefined;
    case 'workholding.max_rpm':
      return sheet?.workholding?.max_rpm !== undefined;
    case 'workholding.force':
      return sheet?.workholding?.force_n !== undefined;
    case 'stock':
      return program.cuts !== undefined;
    case 'quote':
      return sheet?.quote?.time_s !== undefined;
    case 'record':
      return program.record !== undefined;
    default:
      return false;
  }
}
