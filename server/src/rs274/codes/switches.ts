import { ALL, type CodeRow, code, NGC, REPORT } from './shape.ts';

const BOTH = (section: string): string => `${REPORT}${section}; ISO 6983-1`;

/** Overrides, outputs and saved modes. */
export const SWITCH_CODES: readonly CodeRow[] = [
  code({
    code: 'M48',
    group: 'overrides',
    in: ALL,
    means: 'overrides on',
    effect: 'overrides-on',
    does: 'Feed and speed overrides work.',
    source: BOTH('3.6.5'),
  }),
  code({
    code: 'M49',
    group: 'overrides',
    in: ALL,
    means: 'overrides locked',
    effect: 'overrides-locked',
    does: 'Overrides are ignored: a prove-out cannot be slowed down.',
    source: BOTH('3.6.5'),
  }),
  ...(
    [
      [50, 'feed override'],
      [51, 'speed override'],
      [52, 'adaptive feed'],
      [53, 'feed stop'],
    ] as const
  ).map(([number, what]) =>
    code({
      code: `M${number}`,
      group: 'overrides',
      in: NGC,
      means: `${what} control`,
      takes: 'P',
      effect: 'accepted',
      does: `Switches ${what} off (P0) or on (P1).`,
      example: `M${number} P0`,
    }),
  ),
  code({
    code: 'M61',
    group: 'tool-change',
    in: NGC,
    means: 'declare the tool',
    needs: 'Q',
    effect: 'set-tool-number',
    does: 'Says which tool is in the spindle, without a change.',
    example: 'M61 Q4',
  }),
  ...[62, 63, 64, 65].map(number =>
    code({
      code: `M${number}`,
      group: 'io',
      in: NGC,
      means: 'digital output',
      needs: 'P',
      effect: 'accepted',
      does: `Output P ${number % 2 === 0 ? 'on' : 'off'}, ${number < 64 ? 'with the next motion' : 'at once'}.`,
      example: `M${number} P0`,
    }),
  ),
  code({
    code: 'M66',
    group: 'io',
    in: NGC,
    means: 'wait for input',
    takes: 'P E L Q',
    effect: 'accepted',
    does: 'Waits for input P or E in manner L, at most Q seconds.',
    example: 'M66 P0 L3 Q5',
  }),
  ...[67, 68].map(number =>
    code({
      code: `M${number}`,
      group: 'io',
      in: NGC,
      means: 'analogue output',
      needs: 'E Q',
      effect: 'accepted',
      does: `Sets output E to Q, ${number === 67 ? 'with the next motion' : 'at once'}.`,
      example: `M${number} E0 Q100`,
    }),
  ),
  code({
    code: 'M70',
    group: 'none',
    in: NGC,
    means: 'save modes',
    effect: 'save-state',
    does: 'Saves the modal state for M72.',
  }),
  code({
    code: 'M71',
    group: 'none',
    in: NGC,
    means: 'forget saved modes',
    effect: 'discard-state',
    does: 'Discards what M70 or M73 saved.',
  }),
  code({
    code: 'M72',
    group: 'none',
    in: NGC,
    means: 'restore modes',
    effect: 'restore-state',
    does: 'Restores what M70 saved.',
  }),
  code({
    code: 'M73',
    group: 'none',
    in: NGC,
    means: 'save modes, restore on return',
    effect: 'save-and-restore-state',
    does: 'Saves the modal state and restores it when the subroutine ends.',
  }),
];
