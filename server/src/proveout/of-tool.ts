import type { Review } from '../review/review.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { isConfirmed } from '../setup/known.ts';
import { type FirstContact, firstContact } from './first-contact.ts';

/** The first-contact override of one tool of a review, with its reasons. */
export function firstContactOf(review: Review, used: ToolReview): FirstContact {
  const { program } = review;
  const { tool } = used;
  const error = review.findings.find(f => f.severity === 'error' && (f.tool === undefined || f.tool === used.number));
  const workholding = program.sheet?.workholding;
  const hardness = program.sheet?.workpiece?.hardness?.value;
  const scale = hardness?.scale;
  return firstContact({
    kind: tool?.kind?.value ?? 'other',
    window: used.window?.basis,
    tool: howKnown(used),
    diameter_mm: tool?.diameter_mm?.value,
    stickout_mm: tool?.stickout_mm?.value,
    carbide_bar: tool?.kind?.value === 'bore-bar' && tool.substrate?.value === 'carbide',
    grip: workholding?.grip?.value,
    wear: tool?.wear?.value,
    material: program.material,
    hardness:
      hardness && scale !== undefined && scale !== 'HRB'
        ? { scale, low: hardness.least, high: hardness.most }
        : undefined,
    error: error?.message,
    override_step: program.machine?.override_step_percent?.value,
  });
}

function howKnown({ tool }: ToolReview): 'confirmed' | 'comment' | 'unknown' {
  const origin = (tool?.diameter_mm ?? tool?.kind ?? tool?.nose_radius_mm)?.origin;
  if (!origin) return 'unknown';
  return isConfirmed(origin) ? 'confirmed' : 'comment';
}
