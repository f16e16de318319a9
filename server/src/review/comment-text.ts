/** A comment without its parentheses, semicolon or slashes. */
export function bareComment(text: string): string {
  if (text.startsWith('(')) return text.slice(1, text.endsWith(')') ? -1 : undefined);
  return text.replace(/^(?:;|\/\/)+/, '');
}
