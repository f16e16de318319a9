import type { CommandName } from './commands.ts';

/** The four first steps, in order; each has its page `client/walkthrough/<id>.md`. */
export const steps: readonly {
  id: string;
  title: string;
  text: string;
  button: string;
  command: CommandName;
}[] = [
  {
    id: 'open',
    title: 'Open a program',
    text: 'A small job, copied into a folder of its own. Beside each tool change stands what that tool will do.',
    button: 'Open the sample job',
    command: 'openSampleJob',
  },
  {
    id: 'read',
    title: 'Read the numbers',
    text: 'Point at a block: every number unfolds into its sum. Three levels say how much stands beside the lines.',
    button: 'Change how much is shown',
    command: 'cycleHints',
  },
  {
    id: 'tool',
    title: 'Tell it the tool',
    text: 'Chip load needs diameter and teeth. Nothing is guessed: confirm what the comment says, once.',
    button: 'Confirm the tool at the cursor',
    command: 'confirmTool',
  },
  {
    id: 'check',
    title: 'Check before sending',
    text: 'One page: what stops this program, what was not checked and why, and the caution.',
    button: 'Check before sending',
    command: 'checkBeforeSending',
  },
];
