import { visible } from './visible.ts';

/** A piece of a page that is markup already: made by `html` alone, so that nothing gets into a page unescaped. */
export class Html {
  constructor(readonly text: string) {}
}

export type HtmlPart = string | number | Html | readonly HtmlPart[] | undefined | false;

/** Markup with its values escaped: text of any kind may stand between tags and in quoted attributes. */
export function html(pieces: TemplateStringsArray, ...parts: HtmlPart[]): Html {
  let text = pieces[0];
  parts.forEach((part, i) => {
    text += markup(part) + pieces[i + 1];
  });
  return new Html(text);
}

function markup(part: HtmlPart): string {
  if (part instanceof Html) return part.text;
  if (typeof part === 'string') return escapeHtml(part);
  if (typeof part === 'number') return String(part);
  if (Array.isArray(part)) return part.map(markup).join('');
  return '';
}

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text with everything escaped that a page would read as markup; control characters become visible, halves of pairs a mark. */
export function escapeHtml(text: string): string {
  return visible(text)
    .replace(/[&<>"']/g, character => ENTITIES[character])
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
    .replace(/[\ufffe\uffff]/g, '\ufffd');
}
