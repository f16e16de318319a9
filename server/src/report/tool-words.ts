import { formatQuantity, type ShownUnits } from '../cutting/format.ts';
import type { Span } from '../review/facts.ts';
import type { ToolReview } from '../review/tool-review.ts';
import { effectiveTeeth, isFedPerRevolution } from '../review/working.ts';
import type { OriginFrom } from '../setup/known.ts';
import type { ToolKnown } from '../setup/tools.ts';

const KIND_WORDS: Partial<Record<string, string>> = {
  'end-mill': 'end mill',
  'ball-mill': 'ball mill',
  'bull-mill': 'bull-nose mill',
  'face-mill': 'face mill',
  'chamfer-mill': 'chamfer mill',
  'slot-mill': 'slot mill',
  'thread-mill': 'thread mill',
  'spot-drill': 'spot drill',
  'center-drill': 'centre drill',
  'bore-bar': 'boring bar',
  turn: 'turning tool',
  bore: 'boring head',
  groove: 'grooving tool',
  'part-off': 'part-off tool',
  'thread-turn': 'threading tool',
};

const SOURCE_WORDS: Record<OriginFrom, string> = {
  setup: 'setup sheet',
  standing: 'stands in the machine',
  crib: 'crib',
  comment: 'read from a comment',
  program: 'program',
  settled: 'settled',
  assumed: 'assumed',
};

export function kindWords(kind: string): string {
  return KIND_WORDS[kind] ?? kind;
}

export function sourceWords(from: OriginFrom): string {
  return SOURCE_WORDS[from];
}

/** `1/2`-style sizes stay numbers: `0.500 in end mill, 3 teeth`. What is not known is left out. */
export function toolWords(tool: ToolKnown | undefined, units: ShownUnits): string {
  if (!tool) return 'not known';
  const words: string[] = [];
  if (tool.diameter_mm) words.push(formatQuantity('length_mm', tool.diameter_mm.value, units));
  if (tool.kind) words.push(kindWords(tool.kind.value));
  if (tool.nose_radius_mm)
    words.push(`nose ${formatQuantity('length_mm', tool.nose_radius_mm.value, units)}`);
  const teeth = tool.teeth ? effectiveTeeth(tool) : undefined;
  const head = words.join(' ');
  if (teeth !== undefined) return `${head}, ${teeth} ${teeth === 1 ? 'tooth' : 'teeth'}`;
  return head === '' ? 'not known' : head;
}

/** Least and most of a quantity: one number when they are the same as shown. */
export function spanWords(
  name: Parameters<typeof formatQuantity>[0],
  span: Span | undefined,
  units: ShownUnits,
): string {
  if (!span) return '';
  const low = formatQuantity(name, span[0], units);
  const high = formatQuantity(name, span[1], units);
  if (low === high) return low;
  const blank = low.indexOf(' ');
  return `${blank > 0 && high.endsWith(low.slice(blank)) ? low.slice(0, blank) : low} to ${high}`;
}

/** Chip load where the teeth are known, else feed per revolution. */
export function feedWords(used: ToolReview, units: ShownUnits): string {
  const kind = used.tool?.kind?.value;
  if (used.chip_load_mm && !isFedPerRevolution(kind))
    return spanWords('chip_load_mm', used.chip_load_mm, units);
  return spanWords('feed_per_rev_mm', used.feed_per_rev_mm, units);
}
