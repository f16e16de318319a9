import { chipLoadFromFeedPerRev } from '../../cutting/feeds.ts';
import { formatQuantity } from '../../cutting/format.ts';
import { isAbsent } from '../../cutting/result.ts';
import { toolWords } from '../../report/tool-words.ts';
import { isDoubtful } from '../../review/tool-doubt.ts';
import type { ToolReview } from '../../review/tool-review.ts';
import { effectiveTeeth, isMillingCutter } from '../../review/working.ts';
import { addCalled, addTool, applyTextEdits, calledText, holdsSize, setValue } from '../../setup/index.ts';
import type { Answer, Choice } from '../protocol.ts';
import { type CommandContext, type ServerCommand, say } from './command.ts';
import { editAnswer, fileName, sheetText, sheetUri, textOf } from './sheet-answer.ts';
import { idFrom, toolJson } from './tool-json.ts';

interface Chosen {
  teeth?: number;
  /** Where it is written: the sheet of this program, or the crib, known in every later program. */
  into: 'sheet' | 'crib';
  crib_tool?: string;
}

const TOOTH_COUNTS = [1, 2, 3, 4, 5, 6, 7, 8];

/** Confirms what was read of a tool, asks for its tooth count, or picks it from the crib. */
export const confirmTool: ServerCommand = {
  name: 'confirmTool',
  needsFolder: true,
  async run(context) {
    const { params, job } = context;
    const [given, chosen] = params.args as [number | undefined, Chosen | undefined];
    const used = typeof given === 'number' ? toolByNumber(context, given) : toolAt(context);
    if (!used) return say('No tool is in use at this line.');
    if (chosen) return confirm(context, used, chosen);
    const choices = choicesFor(context, used);
    if (choices.length === 0)
      return say(`T${used.number} is known: ${toolWords(used.tool, job.review.program.shown)}.`);
    const what = used.tool?.reading?.comments[0]?.text;
    return {
      do: 'ask',
      title: `T${used.number}${what ? ` "${what.trim()}"` : ''}: ${question(used)}`,
      choices,
      request: 'confirmTool',
      args: [used.number],
    };
  },
};

function toolByNumber({ job }: CommandContext, number: number): ToolReview | undefined {
  return job.review.tools.find(tool => tool.number === number);
}

/** The tool in use at the cursor. */
function toolAt({ job, line }: CommandContext): ToolReview | undefined {
  const uses = job.review.tools.filter(tool => tool.number >= 0);
  return (
    uses.find(tool => tool.uses.some(use => use.change_line <= line && line <= use.last_line)) ??
    uses.find(tool => tool.uses.some(use => use.change_line === line))
  );
}

function needsTeeth({ tool }: ToolReview): boolean {
  return effectiveTeeth(tool) === undefined && (tool?.kind === undefined || isMillingCutter(tool.kind.value));
}

function question(used: ToolReview): string {
  if (needsTeeth(used)) return 'how many teeth?';
  return used.tool && !used.tool.confirmed ? 'is this right?' : 'which tool is it?';
}

function choicesFor(context: CommandContext, used: ToolReview): Choice[] {
  const { program } = context.job.review;
  const { tool } = used;
  const choices: Choice[] = [];
  if (needsTeeth(used)) {
    for (const teeth of TOOTH_COUNTS) choices.push(toothChoice(context, used, teeth));
  } else if (tool && !tool.confirmed) {
    const words = toolWords(tool, program.shown);
    if (canBeCalled(used))
      choices.push({
        label: `Yes: ${words}`,
        description: 'remember it in the crib, for every later program that calls it so',
        value: { into: 'crib' } satisfies Chosen,
      });
    choices.push({
      label: `Yes: ${words}`,
      description: 'for this program, in its setup sheet',
      value: { into: 'sheet' } satisfies Chosen,
    });
  }
  if (!tool?.confirmed || isDoubtful(used)) choices.push(...cribChoices(context, used));
  return choices;
}

/** A tooth count with the chip load that follows from it; none is chosen beforehand. */
function toothChoice(context: CommandContext, used: ToolReview, teeth: number): Choice {
  const { program } = context.job.review;
  const feed = used.feed_per_rev_mm?.[1];
  const chip = chipLoadFromFeedPerRev({ feed_per_rev_mm: feed, teeth });
  const follows = isAbsent(chip) ? '' : formatQuantity('chip_load_mm', chip, program.shown);
  return {
    label: `${teeth} ${teeth === 1 ? 'tooth' : 'teeth'}`,
    description: follows,
    value: { teeth, into: canBeCalled(used) ? 'crib' : 'sheet' } satisfies Chosen,
  };
}

function cribChoices({ job }: CommandContext, used: ToolReview): Choice[] {
  const choices: Choice[] = [];
  // A tool in doubt may be of another size too; its own crib tool stays among the choices, to say that it is the one.
  const diameter = isDoubtful(used) ? undefined : used.tool?.diameter_mm?.value;
  for (const crib of job.sheets.cribs) {
    for (const [id, entry] of crib.tools ?? []) {
      const own = entry.diameter_mm?.value;
      if (diameter !== undefined && own !== undefined && Math.abs(own - diameter) > 0.01 * diameter) continue;
      choices.push({
        label: id,
        description: 'from the crib',
        value: { into: 'sheet', crib_tool: id } satisfies Chosen,
      });
      if (choices.length >= 50) return choices;
    }
  }
  return choices;
}

/** Comment text that can stand for the tool in later programs: it must hold a size. */
function canBeCalled(used: ToolReview): boolean {
  const text = used.tool?.reading?.comments[0]?.text;
  return text !== undefined && holdsSize(calledText(text));
}

async function confirm(context: CommandContext, used: ToolReview, chosen: Chosen): Promise<Answer> {
  const units = context.job.review.program.shown;
  const entry = {
    ...toolJson(used.tool, units),
    ...(chosen.teeth !== undefined ? { teeth: chosen.teeth } : {}),
  };
  if (chosen.into === 'crib') return intoCrib(context, used, entry);
  const uri = sheetUri(context);
  const name = fileName(uri);
  const { text, isNew } = await sheetText(context, uri, [used.number]);
  const number = used.number;
  const result =
    chosen.crib_tool !== undefined
      ? setValue(text, ['tools', String(number), 'crib'], chosen.crib_tool)
      : addTool(text, number, entry);
  return editAnswer(uri, text, isNew, result, `Confirm T${number} in ${name}`);
}

async function intoCrib(
  context: CommandContext,
  used: ToolReview,
  entry: Record<string, string | number>,
): Promise<Answer> {
  const { job, server, params } = context;
  const crib = job.sheets.cribs[0];
  const uri = crib?.file ?? server.files.join(server.files.parent(params.uri) ?? params.uri, 'crib.json');
  const comment = used.tool?.reading?.comments[0]?.text ?? '';
  const { text, isNew } = await textOf(context, uri, () => '{\n  "tools": {}\n}\n');
  const id = idFrom(calledText(comment), new Set(crib?.tools?.keys() ?? []));
  const added = setValue(text, ['tools', id], entry);
  if ('why' in added) return editAnswer(uri, text, isNew, added, `Remember T${used.number}`);
  const withTool = applyTextEdits(text, added.edits);
  const called = addCalled(withTool, id, comment);
  if ('why' in called) return editAnswer(uri, text, isNew, called, `Remember T${used.number}`);
  const whole = applyTextEdits(withTool, called.edits);
  return editAnswer(
    uri,
    text,
    isNew,
    { edits: [{ offset: 0, length: text.length, text: whole }] },
    `Remember "${calledText(comment)}" in the crib`,
  );
}
