/** What is found as well when the tool stands at a wrong height: the cause is told alone. */
export const FOLLOW_FROM_WRONG_Z = [
  'rapid-into-stock',
  'rapid-through-stock',
  'cut-below-stock',
  'stickout-too-short',
  'flute-too-short',
  'body-touches-stock',
] as const;
