export { code, plain, table } from '../report/markdown.ts';

/** The address that runs one of our commands. */
export const commandUri = (command: string, args: readonly unknown[]): string =>
  `command:${command}?${encodeURIComponent(JSON.stringify(args))}`;
