import { type Html, html } from './html-text.ts';

export interface PageParts {
  title: string;
  /** Rules of this kind of page, after the common ones. */
  style: string;
  body: readonly Html[];
}

/** Nothing is loaded, run, framed or sent: the page is its own text and style. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** A whole page in one file: no outside link, no script, readable in light, dark and on paper. */
export function page({ title, style, body }: PageParts): string {
  return `<!DOCTYPE html>
${
  html`<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${title}</title>`.text
}
<style>${COMMON_STYLE}${style}</style>
</head>
<body>
${body.map(part => part.text).join('\n')}
</body>
</html>
`;
}

/**
 * Colours carry nothing alone: severity has a shape and a word, marks have an underline. Inside the editor the page has the
 * colours of its theme, elsewhere those of the reader's choice of light or dark, on paper black on white.
 */
const COMMON_STYLE = `
:root {
  color-scheme: light dark;
  --ink: var(--vscode-editor-foreground, #111); --soft: var(--vscode-descriptionForeground, #555);
  --paper: var(--vscode-editor-background, #fff); --band: var(--vscode-editorWidget-background, #f2f2f0);
  --line: var(--vscode-panel-border, #bbb); --link: var(--vscode-textLink-foreground, #0b4f8a);
}
@media (prefers-color-scheme: dark) {
  :root {
    --ink: var(--vscode-editor-foreground, #e6e6e6); --soft: var(--vscode-descriptionForeground, #a8a8a8);
    --paper: var(--vscode-editor-background, #1b1c1e); --band: var(--vscode-editorWidget-background, #27292c);
    --line: var(--vscode-panel-border, #565a60); --link: var(--vscode-textLink-foreground, #8ec5ff);
  }
}
* { box-sizing: border-box; }
html { scroll-padding-top: 4rem; }
body { margin: 0; padding: 0 1.5rem 3rem; background: var(--paper); color: var(--ink); font: 1rem/1.45 var(--vscode-font-family, system-ui, sans-serif); overflow-wrap: break-word; }
td, li, p { overflow-wrap: anywhere; }
.nb { white-space: nowrap; }
h1 { font-size: 1.5rem; margin: 1.2rem 0 0.2rem; }
h2 { font-size: 1.15rem; margin: 2rem 0 0.5rem; border-bottom: 2px solid var(--ink); }
h3 { font-size: 1rem; margin: 1rem 0 0.3rem; }
p, ul, ol, dl { margin: 0.4rem 0; }
a { color: var(--link); }
a:focus-visible, summary:focus-visible, [tabindex]:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
code, pre, .code { font-family: var(--vscode-editor-font-family, ui-monospace, 'DejaVu Sans Mono', monospace); font-size: 0.92em; color: inherit; background: none; padding: 0; }
table { border-collapse: collapse; }
caption { text-align: left; color: var(--soft); padding-bottom: 0.3rem; }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.7rem 0.2rem 0; }
thead th { border-bottom: 1px solid var(--ink); }
tbody tr + tr > * { border-top: 1px solid var(--line); }
.soft { color: var(--soft); }
.caution { border: 2px solid var(--ink); padding: 0.4rem 0.7rem; margin: 0.8rem 0; }
.wide { overflow-x: auto; }
@media print {
  :root { --ink: #000; --soft: #333; --paper: #fff; --band: #fff; --line: #888; --link: #000; color-scheme: light; }
  a { text-decoration: none; }
  .skip { display: none; }
  thead { display: table-header-group; }
  tr, .keep { break-inside: avoid; }
  h2, h3 { break-after: avoid; }
  .wide { overflow: visible; }
}
.skip { position: absolute; left: -999rem; }
.skip:focus { position: static; }
`;
