// Writes the pages of the cutting library out of its doc comments and typical arguments.
//   npx tsx server/scripts/cutting-api.ts            writes
//   npx tsx server/scripts/cutting-api.ts --check    fails when the page is stale
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import * as cutting from '../src/cutting/index.ts';
import { CUTTING_SAMPLES, typical } from './cutting-samples/index.ts';

/** Where the page stands. */
export const API_PAGE = fileURLToPath(new URL('../src/cutting/API.md', import.meta.url));
const ROOM = fileURLToPath(new URL('../src/cutting/', import.meta.url));
const TAGS = ['formula', 'units', 'range', 'source'] as const;
type Tag = (typeof TAGS)[number];

/** What the doc comment of one exported function says. */
export interface FunctionPage {
  readonly name: string;
  readonly file: string;
  readonly purpose: string;
  readonly tags: Readonly<Partial<Record<Tag, string>>>;
}

/** A page for each function that the entry point exports, by file. */
export function functionPages(): FunctionPage[] {
  const exported = new Set(
    Object.entries(cutting)
      .filter(([, value]) => typeof value === 'function')
      .map(([name]) => name),
  );
  const pages: FunctionPage[] = [];
  for (const file of readdirSync(ROOM).sort()) {
    if (!file.endsWith('.ts') || file === 'index.ts') continue;
    const source = ts.createSourceFile(file, readFileSync(ROOM + file, 'utf8'), ts.ScriptTarget.Latest, true);
    for (const statement of source.statements) {
      if (!ts.isFunctionDeclaration(statement) || statement.name === undefined) continue;
      if (exported.has(statement.name.text)) pages.push(pageOf(statement, statement.name.text, file));
    }
  }
  return pages;
}

function pageOf(declaration: ts.FunctionDeclaration, name: string, file: string): FunctionPage {
  const docs = ts.getJSDocCommentsAndTags(declaration).filter(ts.isJSDoc);
  const last = docs.at(-1);
  const tags: Partial<Record<Tag, string>> = {};
  for (const tag of last?.tags ?? []) {
    const known = TAGS.find(one => one === tag.tagName.text);
    if (known !== undefined) tags[known] = oneLine(ts.getTextOfJSDocComment(tag.comment));
  }
  return { name, file, purpose: oneLine(ts.getTextOfJSDocComment(last?.comment)), tags };
}

const oneLine = (text: string | undefined): string => (text ?? '').replace(/\s+/g, ' ').trim();

/** What a page lacks, in words; empty when it is complete. */
export function lacking(page: FunctionPage): string[] {
  const missing: string[] = TAGS.filter(tag => !page.tags[tag]);
  if (page.purpose === '') missing.unshift('purpose');
  if (CUTTING_SAMPLES[page.name] === undefined) missing.push('typical arguments');
  return missing;
}

/** The whole page as text. */
export function cuttingApiPage(): string {
  const pages = functionPages();
  const files = [...new Set(pages.map(page => page.file))];
  const parts = [INTRODUCTION.replace('COUNT', String(pages.length))];
  for (const file of files) {
    parts.push(`## ${titleOf(file)}\n`);
    for (const page of pages.filter(one => one.file === file)) parts.push(section(page));
  }
  return `${parts.join('\n')}`;
}

const INTRODUCTION = `# Cutting library

<!-- Generated from the doc comments by server/scripts/cutting-api.ts; do not edit. -->

Entry point \`tapeproof/cutting\`: COUNT functions, ES module, no dependency, runs in Node and in a browser.

\`\`\`js
import { isAbsent, surfaceSpeed } from 'tapeproof/cutting';

surfaceSpeed({ diameter_mm: 12.7, spindle_rpm: 8000 }); // 319.186
surfaceSpeed({ diameter_mm: undefined, spindle_rpm: 8000 }); // { absent: 'diameter not known', missing: ['diameter_mm'] }
\`\`\`

Inputs and results are in mm, min, rev/min, N, N m, kW, N/mm2 and degrees; the unit stands in the name. A function gives a number, an
estimate \`{ value, low, high, basis }\` where the figure is empirical, or \`{ absent, missing }\` with the reason in words. No function
returns NaN or infinity. An input may itself be an absence: it passes on. Functions that end in \`Column\` take arrays and give
\`{ values, why, reasons }\`: where \`why[i]\` is 0 the value is known, else \`reasons[why[i]]\` says why not. \`convert\` changes units.

Starting values only: the limits of machine and tool maker and the shop's rules come first; a qualified person decides.
`;

const titleOf = (file: string): string => {
  const words = file.replace('.ts', '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

function section(page: FunctionPage): string {
  const lines = [`### ${page.name}`, '', page.purpose, ''];
  for (const tag of TAGS) lines.push(`- ${tag}: ${page.tags[tag] ?? ''}`);
  const example = exampleOf(page.name);
  if (example !== undefined) lines.push(`- example: \`${example}\``);
  lines.push('');
  return lines.join('\n');
}

/** A call with typical arguments and what it gives; columns and long lists are left to the reader. */
function exampleOf(name: string): string | undefined {
  const sample = CUTTING_SAMPLES[name];
  const call = (cutting as Readonly<Record<string, unknown>>)[name];
  if (sample === undefined || typeof call !== 'function') return undefined;
  const args = sample.map(typical);
  const result: unknown = call(...args);
  const text = `${name}(${args.map(literal).join(', ')}) gives ${literal(result)}`;
  return text.length <= 700 ? text : undefined;
}

function literal(value: unknown): string {
  if (typeof value === 'number') return String(Number(value.toPrecision(7)));
  if (typeof value === 'string') return `'${value}'`;
  if (ArrayBuffer.isView(value)) return `[${Array.from(value as Float64Array, literal).join(', ')}]`;
  if (Array.isArray(value)) return `[${value.map(literal).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  return `{ ${Object.entries(value)
    .filter(([, entry]) => entry !== undefined)
    .map(([key, entry]) => `${key}: ${literal(entry)}`)
    .join(', ')} }`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const stale = readFileSync(API_PAGE, { encoding: 'utf8', flag: 'a+' }) !== cuttingApiPage();
  if (process.argv.includes('--check')) {
    if (stale) console.error('API.md is stale: run npx tsx server/scripts/cutting-api.ts');
    process.exitCode = stale ? 1 : 0;
  } else if (stale) writeFileSync(API_PAGE, cuttingApiPage());
}
