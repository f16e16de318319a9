import { renumber as renumberEdits } from '../renumber.ts';
import { type ServerCommand, say } from './command.ts';

const CHOICES = [
  { first: 10, step: 10, all: true },
  { first: 1, step: 1, all: true },
  { first: 10, step: 10, all: false },
];

/** Numbers the blocks anew and keeps what points at them; one edit. */
export const renumber: ServerCommand = {
  name: 'renumber',
  run({ params, job }) {
    const [chosen] = params.args as [(typeof CHOICES)[number] | undefined];
    if (!chosen)
      return {
        do: 'ask',
        title: 'How are the blocks to be numbered?',
        choices: CHOICES.map(value => ({
          label: `N${value.first}, N${value.first + value.step}, N${value.first + 2 * value.step} …`,
          description: value.all ? 'every block' : 'only blocks that have a number now',
          value,
        })),
        request: 'renumber',
        args: [],
      };
    const result = renumberEdits(job.review.program.reading, chosen);
    if ('refused' in result) return say(`Not renumbered: ${result.refused}`, 'warning');
    return { do: 'edit', label: 'Renumber the blocks', uri: params.uri, edits: result.edits };
  },
};
