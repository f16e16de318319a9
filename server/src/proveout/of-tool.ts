import { decodeHolder } from '../cutting/designation-holder.ts';
import { isAbsent } from '../cutting/result.ts';
import type { Finding } from '../review/finding.ts';
import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { Slot } from '../rs274/slot.ts';
import { isConfirmed } from '../setup/known.ts';
import { type FirstContact, type FirstContactInput, firstContact } from './first-contact.ts';
import { firstEntryOf } from './first-entry.ts';

const held = new Slot<ToolReview, FirstContact>();

/** The first-contact override of one tool of a review, with its reasons. */
export function firstContactOf(review: Review, used: ToolReview): FirstContact {
  let contact = held.get(used);
  if (!contact) {
    contact = compose(review, used);
    held.set(used, contact);
  }
  return contact;
}

function compose(review: Review, used: ToolReview): FirstContact {
  const { program } = review;
  const { tool } = used;
  const error = review.findings.find(finding => stopsTool(finding, used));
  const workholding = program.sheet?.workholding;
  return firstContact({
    kind: tool?.kind?.value ?? 'other',
    window: used.window?.basis,
    tool: howKnown(used),
    diameter_mm: barDiameter(used) ?? tool?.diameter_mm?.value,
    stickout_mm: tool?.stickout_mm?.value,
    carbide_bar: isCarbideBar(used),
    grip: workholding?.grip?.value,
    wear: tool?.wear?.value,
    material: program.material,
    hardness: program.sheet?.workpiece?.hardness?.value,
    ...stockTerms(review, used),
    error: error?.message,
    override_step: program.machine?.override_step_percent?.value,
  });
}

function howKnown({ tool }: ToolReview): 'confirmed' | 'comment' | 'unknown' {
  const origin = (tool?.diameter_mm ?? tool?.kind ?? tool?.nose_radius_mm)?.origin;
  if (!origin) return 'unknown';
  return isConfirmed(origin) ? 'confirmed' : 'comment';
}

/** A boring bar's stiffness is that of its own shank. */
function barDiameter({ tool }: ToolReview): number | undefined {
  return tool?.kind?.value === 'bore-bar' ? tool.shank_diameter_mm?.value : undefined;
}

/** The holder's designation says whether the bar itself is carbide; the insert's material does not. */
function isCarbideBar({ tool }: ToolReview): boolean {
  if (tool?.kind?.value !== 'bore-bar' || !tool.holder) return false;
  const holder = decodeHolder(tool.holder.value);
  return !isAbsent(holder) && holder.bar?.carbide === true;
}

/** An error of the tool itself, or one that stands in the lines that it runs. */
function stopsTool(finding: Finding, used: ToolReview): boolean {
  if (finding.severity !== 'error' || finding.file !== undefined) return false;
  if (finding.tool !== undefined) return finding.tool === used.number;
  return used.uses.some(use => use.first_line <= finding.line && finding.line <= use.last_line);
}

/** What the stock adds: first entry, greatest load, the chip at the first entry against the edge. */
function stockTerms(review: Review, used: ToolReview): Partial<FirstContactInput> {
  const { cuts, material } = review.program;
  const entry = firstEntryOf(review, used);
  if (!cuts || !entry) return {};
  const edge_radius_mm = used.tool?.edge_radius_mm?.value;
  const k = material?.h_min_over_edge_radius;
  return {
    stock: cuts.assumed ? 'assumed' : 'stated',
    ...(entry.entry ? { entry: entry.entry } : {}),
    ...(entry.load ? { load: entry.load } : {}),
    ...(edge_radius_mm !== undefined && k && entry.chip_thickness_mm > 0
      ? { rub: { h_max_mm: entry.chip_thickness_mm, edge_radius_mm, k } }
      : {}),
  };
}
