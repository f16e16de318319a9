import { programFacts } from '../../job/program-facts.ts';
import { newSheet } from '../../setup/index.ts';
import type { ServerCommand } from './command.ts';
import { fileName, sheetUri } from './sheet-answer.ts';

/** Opens the setup sheet; where there is none, a new one filled with what the program says, not yet saved. */
export const openSetupSheet: ServerCommand = {
  name: 'openSetupSheet',
  needsFolder: true,
  run(context) {
    const uri = sheetUri(context);
    const facts = programFacts(context.job.review, fileName(context.params.uri));
    return { do: 'open', uri, content: newSheet(facts) };
  },
};
