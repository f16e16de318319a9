import { quantityKinds } from './quantity.ts';
import type { KeyRow, Shape } from './spec.ts';

type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type JsonSchema = { [key: string]: Json };

/** A JSON Schema (draft 7) of a whole file, out of the table of its keys. */
export function schemaOf(shape: Shape, title: string, description: string): JsonSchema {
  const schema = shapeSchema(shape);
  const properties = schema.properties;
  const own = properties && typeof properties === 'object' && !Array.isArray(properties) ? properties : {};
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title,
    description,
    allowComments: true,
    allowTrailingCommas: true,
    ...schema,
    properties: { $schema: { type: 'string' }, ...own },
  };
}

/**
 * A schema that helps to fill a file in and finds nothing wrong with it: keys, texts and values to choose from, without the
 * rules. Where our own server looks at the same file, its messages are the only ones.
 */
export function completionSchema(schema: JsonSchema): JsonSchema {
  const kept: JsonSchema = {};
  for (const [key, value] of Object.entries(schema)) {
    if (RULES.has(key)) continue;
    if (key === 'enum') kept.examples = value;
    else if (key === 'properties' || key === 'patternProperties') kept[key] = softened(value);
    else kept[key] = deepSoftened(value);
  }
  if (schema.type === 'boolean') kept.examples = [true, false];
  return kept;
}

const RULES: ReadonlySet<string> = new Set([
  'type',
  'pattern',
  'additionalProperties',
  'minimum',
  'maximum',
  'exclusiveMinimum',
  'minItems',
  'maxItems',
]);

/** A table of schemas by name. */
function softened(table: Json): Json {
  if (!isSchema(table)) return table;
  return Object.fromEntries(Object.entries(table).map(([name, value]) => [name, deepSoftened(value)]));
}

function deepSoftened(value: Json): Json {
  if (Array.isArray(value)) return value.map(deepSoftened);
  return isSchema(value) ? completionSchema(value) : value;
}

const isSchema = (value: Json): value is JsonSchema =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The text that completion and hover show for a key. */
export function keyDoc(row: KeyRow): string {
  return row.iso13399 === undefined ? row.doc : `${row.doc} ISO 13399: ${row.iso13399}.`;
}

function shapeSchema(shape: Shape): JsonSchema {
  switch (shape.is) {
    case 'text':
      if (shape.values) return { type: 'string', enum: [...shape.values] };
      return shape.form ? { type: 'string', pattern: shape.form.pattern } : { type: 'string' };
    case 'number':
      return { type: shape.whole ? 'integer' : 'number', ...limits(shape) };
    case 'truth':
      return { type: 'boolean' };
    case 'quantity':
      return quantitySchema(shape);
    case 'list':
      return {
        type: 'array',
        items: shapeSchema(shape.of),
        ...(shape.least === undefined ? {} : { minItems: shape.least }),
        ...(shape.most === undefined ? {} : { maxItems: shape.most }),
      };
    case 'object':
      return {
        type: 'object',
        additionalProperties: false,
        properties: Object.fromEntries(shape.keys.map(keySchema)),
      };
    case 'map':
      return {
        type: 'object',
        additionalProperties: false,
        patternProperties: { [shape.names.pattern]: shapeSchema(shape.of) },
      };
    case 'either':
      return { anyOf: shape.options.map(shapeSchema) };
  }
}

function keySchema(row: KeyRow): [string, JsonSchema] {
  const example: JsonSchema =
    row.example === undefined ? {} : { examples: [JSON.parse(row.example) as Json] };
  return [row.key, { description: keyDoc(row), ...example, ...shapeSchema(row.shape) }];
}

/** Limits of a bare number hold in the sheet's units: only those that are the same in all units go into the schema. */
function quantitySchema(shape: Extract<Shape, { is: 'quantity' }>): JsonSchema {
  const text: JsonSchema = {
    type: 'string',
    pattern: shape.quantity === 'pitch' ? '\\d' : '^\\s*[+-]?[\\d.]',
  };
  const row = shape.quantity === 'pitch' ? quantityKinds.length : quantityKinds[shape.quantity];
  if (row.mm === undefined) return text;
  const sameInAll = row.inch === row.mm;
  const bounds = sameInAll
    ? limits(shape)
    : limits({ above: shape.above === 0 ? 0 : undefined, least: shape.least === 0 ? 0 : undefined });
  return { anyOf: [{ type: 'number', ...bounds }, text] };
}

function limits({
  least,
  most,
  above,
}: {
  least?: number | undefined;
  most?: number | undefined;
  above?: number | undefined;
}): JsonSchema {
  return {
    ...(least === undefined ? {} : { minimum: least }),
    ...(above === undefined ? {} : { exclusiveMinimum: above }),
    ...(most === undefined ? {} : { maximum: most }),
  };
}
