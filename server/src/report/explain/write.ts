import { code, plain } from '../markdown.ts';
import { columns, wrap } from '../words.ts';
import { explain } from './explain.ts';
import type { Explanation } from './explanation.ts';

const WIDTH = 100;
const KIND_WORDS: Record<Explanation['kind'], string> = {
  finding: 'finding',
  problem: 'problem of the text',
  quantity: 'quantity',
  code: 'code',
  letter: 'word letter',
  key: 'key',
  word: 'word',
};

/** What a name stands for, as text; undefined when nothing is called so. */
export function explainText(name: string): string | undefined {
  const found = explain(name);
  if (found.length === 0) return undefined;
  return `${found.map(textOf).join('\n\n')}\n`;
}

function textOf({ kind, name, title, parts }: Explanation): string {
  const width = Math.max(...parts.map(({ label }) => label.length)) + 4;
  const lines = parts.flatMap(({ label, text }) => {
    const [first, ...rest] = wrap(text, WIDTH - width).split('\n');
    return columns([
      [`  ${label}`.padEnd(width - 2), first],
      ...rest.map(line => [' '.repeat(width - 2), line]),
    ]);
  });
  return [`${name} (${KIND_WORDS[kind]}): ${title}`, ...lines].join('\n');
}

/** What a name stands for, as markdown for a hover, a link or a manual page; undefined when nothing is called so. */
export function explainMarkdown(name: string): string | undefined {
  const found = explain(name);
  return found.length === 0 ? undefined : found.map(each => explanationMarkdown(each)).join('\n\n---\n\n');
}

/** One explanation as markdown. */
export function explanationMarkdown(
  { kind, name, title, parts }: Explanation,
  escaped: (text: string) => string = plain,
): string {
  const lines = parts.map(part => `- ${part.label}: ${part.code ? code(part.text) : escaped(part.text)}`);
  return [`**${escaped(name)}** (${KIND_WORDS[kind]}): ${escaped(title)}`, lines.join('\n')].join('\n\n');
}
