import { DIALECTS } from '../../rs274/index.ts';
import { setValue } from '../../setup/index.ts';
import type { ServerCommand } from './command.ts';
import { editAnswer, sheetText, sheetUri } from './sheet-answer.ts';

const WHAT: Record<(typeof DIALECTS)[number], string> = {
  ngc: 'RS-274/NGC (NISTIR 6556) and what grew out of it',
  iso6983: 'word address, EIA RS-274-D / ISO 6983-1',
  'lathe-a': 'lathe code system A: U W, G50, G98 and G99 feed',
  'lathe-b': 'lathe code system B: G90 and G91, G92, G94 and G95 feed',
  'lathe-c': 'lathe code system C: G70 and G71 units, G94 and G95 feed',
};

/** Says which dialect was recognised and why; another choice is written to the setup sheet. */
export const chooseDialect: ServerCommand = {
  name: 'chooseDialect',
  needsFolder: true,
  async run(context) {
    const { review } = context.job;
    const { dialect } = review.program.reading.settled;
    const [chosen] = context.params.args as [string | undefined];
    if (!chosen) {
      return {
        do: 'ask',
        title: `Read as ${dialect.value}: ${dialect.why}`,
        choices: DIALECTS.map(name => ({
          label: name,
          description: name === dialect.value ? 'as read now' : '',
          detail: WHAT[name],
          value: name,
        })),
        request: 'chooseDialect',
        args: [],
      };
    }
    const uri = sheetUri(context);
    const { text, isNew } = await sheetText(context, uri, []);
    return editAnswer(
      uri,
      text,
      isNew,
      setValue(text, ['machine', 'dialect'], chosen),
      `Read this program as ${chosen}`,
    );
  },
};
