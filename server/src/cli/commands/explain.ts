import { nearNames } from '../../report/explain/explain.ts';
import { explainText } from '../../report/explain/write.ts';
import { UsageError } from '../arguments.ts';
import { type Command, EXIT } from '../command.ts';
import { visible, writeResult } from '../output.ts';

export const explain: Command = {
  name: 'explain',
  takes: 'NAME',
  does: 'what a finding code, quantity, G or M code, word letter or key of the sheet means',
  options: [],
  async run(args) {
    const name = args.positionals.join(' ');
    if (name === '')
      throw new UsageError(
        'explain takes a name, such as chip-load-low, chip_load_mm, G83, F or tools.3.diameter',
      );
    const text = explainText(name);
    if (text === undefined) {
      const near = nearNames(name);
      const offer = near.length > 0 ? `; near it: ${near.join(', ')}` : '';
      throw new UsageError(`nothing is called '${name.slice(0, 60)}'${offer}`);
    }
    writeResult(visible(text));
    return EXIT.done;
  },
};
