import { plain } from '../report/markdown.ts';

export { code, plain, table } from '../report/markdown.ts';

/** A link that runs one of our commands. */
export function commandLink(text: string, command: string, args: readonly unknown[]): string {
  return `[${plain(text)}](command:${command}?${encodeURIComponent(JSON.stringify(args))})`;
}
