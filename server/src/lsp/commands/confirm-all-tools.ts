import { toolWords } from '../../report/tool-words.ts';
import { addTool, applyTextEdits } from '../../setup/index.ts';
import { type ServerCommand, say } from './command.ts';
import { editAnswer, fileName, sheetText, sheetUri } from './sheet-answer.ts';
import { toolJson } from './tool-json.ts';

/** All tools that were read from comments in one list; those that are ticked go into the setup sheet. */
export const confirmAllTools: ServerCommand = {
  name: 'confirmAllTools',
  needsFolder: true,
  async run(context) {
    const { review } = context.job;
    const { shown } = review.program;
    const open = review.tools.filter(
      tool => tool.number >= 0 && tool.tool && !tool.tool.confirmed && tool.from,
    );
    const [chosen] = context.params.args as [number[] | undefined];
    if (open.length === 0) return say('No tool is left to confirm.');
    if (!chosen) {
      const choices = open.map(tool => ({
        label: `T${tool.number}: ${toolWords(tool.tool, shown)}`,
        detail: tool.tool?.reading?.comments[0]?.text.trim() ?? '',
        value: tool.number,
      }));
      return {
        do: 'ask',
        title: 'Tick the tools that are right',
        choices,
        many: true,
        request: 'confirmAllTools',
        args: [],
      };
    }
    const uri = sheetUri(context);
    const name = fileName(uri);
    const { text, isNew } = await sheetText(context, uri, chosen);
    let now = text;
    for (const tool of open) {
      if (!chosen.includes(tool.number)) continue;
      const result = addTool(now, tool.number, toolJson(tool.tool, shown));
      if ('why' in result) return editAnswer(uri, text, isNew, result, `Confirm T${tool.number}`);
      now = applyTextEdits(now, result.edits);
    }
    const result = { edits: now === text ? [] : [{ offset: 0, length: text.length, text: now }] };
    return editAnswer(
      uri,
      text,
      isNew,
      result,
      `Confirm ${chosen.map(number => `T${number}`).join(', ')} in ${name}`,
    );
  },
};
