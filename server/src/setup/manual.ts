import { keyDoc } from './json-schema.ts';
import { sheetProblems } from './problem.ts';
import { quantityKinds } from './quantity.ts';
import { cribSpec, sheetSpec } from './sheet.ts';
import type { KeyRow, Shape } from './spec.ts';

/** The manual page of setup sheet and crib, out of the tables. */
export function setupManual(): string {
  return [
    '# Setup sheet and crib',
    '',
    'Made from the tables in `server/src/setup` by `npm run generate`: change those, not this page.',
    '',
    'JSON with comments and trailing commas. `bracket.setup.json` stands beside `bracket.nc`; `crib.json`, in the nearest folder upwards, holds what programs share. Everything is optional.',
    'Bare lengths are in `units`; a text may carry its own unit: `"1/2 in"`, `"1-1/4 in"`, `"12 mm"`, `"M6x1"` and `"1/4-20"` for a pitch. Bare speeds are m/min in mm files and ft/min in inch files.',
    '',
    'What is known of a tool: setup sheet, then standing tool of the machine, then the crib tool that the comment calls so, then what the comment itself says.',
    '',
    ...sectionsOf('Setup sheet', sheetSpec.shape),
    ...sectionsOf('Crib', cribSpec.shape),
    '## Units',
    '',
    '| quantity | units |',
    '|---|---|',
    ...Object.entries(quantityKinds).map(
      ([kind, row]) => `| ${kind.replaceAll('_', ' ')} | ${Object.keys(row.units).map(code).join(' ')} |`,
    ),
    '',
    '## Problems',
    '',
    '| code | severity | means |',
    '|---|---|---|',
    ...Object.entries(sheetProblems).map(
      ([name, row]) => `| ${code(name)} | ${row.severity} | ${row.title}. |`,
    ),
    '',
  ].join('\n');
}

function sectionsOf(title: string, shape: Shape): string[] {
  const lines = [`## ${title}`, ''];
  const open: { path: string; shape: Shape }[] = [{ path: '', shape }];
  const done = new Set<readonly KeyRow[]>();
  for (let next = open.shift(); next; next = open.shift()) {
    const { path } = next;
    for (const keys of objectsIn(next.shape)) {
      if (done.has(keys)) continue;
      done.add(keys);
      if (path !== '') lines.push(`### ${code(path)}`, '');
      lines.push('| key | value | meaning | example |', '|---|---|---|---|', ...keys.map(rowText), '');
      open.push(
        ...keys.map(row => ({
          path: `${path === '' ? '' : `${path}.`}${row.key}${membersOf(row.shape)}`,
          shape: row.shape,
        })),
      );
    }
  }
  return lines;
}

/** The tables of keys that a value holds directly. */
function objectsIn(shape: Shape): (readonly KeyRow[])[] {
  switch (shape.is) {
    case 'object':
      return [shape.keys];
    case 'map':
    case 'list':
      return objectsIn(shape.of);
    case 'either':
      return shape.options.flatMap(objectsIn);
    default:
      return [];
  }
}

function membersOf(shape: Shape): string {
  return shape.is === 'map' || shape.is === 'list' ? '.*' : '';
}

function rowText(row: KeyRow): string {
  const example = row.example === undefined ? '' : code(row.example.replaceAll('|', '\\|'));
  return `| ${code(row.key)} | ${valueText(row.shape)} | ${keyDoc(row)} | ${example} |`;
}

/** What may stand as a value, in markdown. */
export function valueText(shape: Shape): string {
  switch (shape.is) {
    case 'text':
      return shape.values ? shape.values.map(code).join(' ') : (shape.form?.name ?? 'text');
    case 'quantity':
      return shape.quantity.replaceAll('_', ' ');
    case 'number':
      return shape.whole ? 'whole number' : 'number';
    case 'truth':
      return '`true` `false`';
    case 'list':
      return `list of ${valueText(shape.of)}`;
    case 'map':
      return `by ${shape.names.what.replace(/^an? /, '')}: ${valueText(shape.of)}`;
    case 'object':
      return 'object';
    case 'either':
      return shape.options.map(valueText).join(', or ');
  }
}

function code(text: string): string {
  return `\`${text}\``;
}
