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
