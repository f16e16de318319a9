import type { Node } from 'jsonc-parser';
import type { Known } from './known.ts';
import { nearestName } from './nearest.ts';
import type { QuantityKind } from './quantity.ts';
import type { ReadContext } from './read-context.ts';

/** What a value of a sheet looks like: the one source of JSON Schema, checks, completion and hover. */
export type Shape =
  | { is: 'text'; values?: readonly string[]; form?: TextForm }
  | { is: 'quantity'; quantity: QuantityKind | 'pitch'; least?: number; most?: number; above?: number }
  | { is: 'number'; whole?: boolean; least?: number; most?: number; above?: number }
  | { is: 'truth' }
  | { is: 'list'; of: Shape; least?: number; most?: number }
  | { is: 'object'; keys: readonly KeyRow[] }
  | { is: 'map'; of: Shape; names: MapNames }
  | { is: 'either'; options: readonly Shape[] };

/** A text of a special form, with a pattern for the JSON Schema and an example for messages. */
export type TextForm = { name: string; pattern: string; example: string };

/** What the keys of a map are. */
export type MapNames = { what: string; pattern: string; example: string };

/** One row of the table: a key, what it means, and the shape of its value. */
export type KeyRow = {
  key: string;
  doc: string;
  /** Symbol of ISO 13399 for the same property. */
  iso13399?: string;
  /** JSON text of an example value. */
  example?: string;
  shape: Shape;
};

export type JsonType = 'object' | 'array' | 'string' | 'number' | 'boolean' | 'null';

/** A shape that also reads: a node of the JSON tree in, a value or a problem out. Never throws. */
export type Spec<T> = {
  shape: Shape;
  accepts: readonly JsonType[];
  read: (node: Node, context: ReadContext) => T | undefined;
};

/** A row of an object's table together with its reader. */
export type Field<T> = KeyRow & { read: (node: Node, context: ReadContext) => T | undefined };

type Fields = Record<string, Field<unknown>>;
/** What an object of the table reads into: each field may be missing. */
export type Read<F extends Fields> = { [K in keyof F]?: F[K] extends Field<infer T> ? T : never };

/** A key whose value is kept with its origin. */
export function field<T>(
  key: string,
  spec: Spec<T>,
  doc: string,
  more: { iso13399?: string; example?: string } = {},
): Field<Known<T>> {
  return {
    key,
    doc,
    ...more,
    shape: spec.shape,
    read: (node, context) => {
      const value = readChecked(spec, node, context);
      return value === undefined ? undefined : { value, origin: context.origin(node) };
    },
  };
}

/** A key whose value is itself an object, map or list of such: its parts carry the origins. */
export function section<T>(
  key: string,
  spec: Spec<T>,
  doc: string,
  more: { example?: string } = {},
): Field<T> {
  return { key, doc, ...more, shape: spec.shape, read: (node, context) => readChecked(spec, node, context) };
}

/** Reads a node by a spec, after looking at its JSON type. */
export function readChecked<T>(spec: Spec<T>, node: Node, context: ReadContext): T | undefined {
  const type = node.type as JsonType | 'property';
  if (type === 'property' || !spec.accepts.includes(type)) {
    context.report(
      'setup-type',
      node,
      `${context.path || 'This'} must be ${describe(spec.shape)}, not ${article(type)}.`,
    );
    return undefined;
  }
  return spec.read(node, context);
}

/** An object with the keys of a table; `check` sees the finished object and may report or mend it. */
export function object<F extends Fields, T = Read<F>>(
  fields: F,
  finish?: (value: Read<F>, node: Node, context: ReadContext) => T | undefined,
): Spec<T> {
  const rows = Object.values(fields);
  const names = new Map(Object.entries(fields).map(([name, row]) => [row.key, name]));
  return {
    shape: { is: 'object', keys: rows },
    accepts: ['object'],
    read: (node, context) => {
      const value: Record<string, unknown> = {};
      for (const { key, keyNode, valueNode } of properties(node, context)) {
        const name = names.get(key);
        if (name === undefined) {
          if (key === '$schema') continue;
          const near = nearestName(key, names.keys());
          const hint = near === undefined ? '' : ` Is "${near}" meant?`;
          context.report('setup-key-unknown', keyNode, `Unknown key "${clip(key)}".${hint}`, near);
          continue;
        }
        value[name] = fields[name]?.read(valueNode, context.at(key));
      }
      for (const name of Object.keys(value)) if (value[name] === undefined) delete value[name];
      const result = value as Read<F>;
      return finish ? finish(result, node, context) : (result as T);
    },
  };
}

/** An object whose keys are names or numbers of the shop's own. */
export function map<K, T>(
  of: Spec<T>,
  names: MapNames,
  keyOf: (key: string) => K | undefined,
): Spec<Map<K, T>> {
  return {
    shape: { is: 'map', of: of.shape, names },
    accepts: ['object'],
    read: (node, context) => {
      const result = new Map<K, T>();
      for (const { key, keyNode, valueNode } of properties(node, context)) {
        const name = keyOf(key);
        if (name === undefined) {
          context.report(
            'setup-value',
            keyNode,
            `"${clip(key)}" is not ${names.what}; write it like "${names.example}".`,
          );
          continue;
        }
        const value = readChecked(of, valueNode, context.at(key));
        if (value !== undefined) result.set(name, value);
      }
      return result;
    },
  };
}

/** A list with a least and a most number of members. A member that cannot be read drops the whole list when `whole` is set. */
export function list<T>(
  of: Spec<T>,
  bounds: { least?: number; most?: number; whole?: boolean } = {},
): Spec<T[]> {
  const { least, most, whole } = bounds;
  return {
    shape: {
      is: 'list',
      of: of.shape,
      ...(least === undefined ? {} : { least }),
      ...(most === undefined ? {} : { most }),
    },
    accepts: ['array'],
    read: (node, context) => {
      const members = node.children ?? [];
      if (members.length < (least ?? 0) || members.length > (most ?? Number.POSITIVE_INFINITY)) {
        const wanted = least === most ? `${least}` : `${least ?? 0} to ${most ?? 'any number of'}`;
        context.report(
          'setup-range',
          node,
          `${context.path} must have ${wanted} members, not ${members.length}.`,
        );
        return undefined;
      }
      const values = members.map((member, index) => readChecked(of, member, context.at(String(index))));
      const good = values.filter(
        (value): value is Awaited<typeof value> & NonNullable<typeof value> => value !== undefined,
      );
      return whole && good.length < values.length ? undefined : (good as T[]);
    },
  };
}

/** One of two shapes, told apart by the JSON type of the value. */
export function either<A, B>(first: Spec<A>, second: Spec<B>): Spec<A | B> {
  return {
    shape: { is: 'either', options: [first.shape, second.shape] },
    accepts: [...first.accepts, ...second.accepts],
    read: (node, context) =>
      first.accepts.includes(node.type as JsonType) ? first.read(node, context) : second.read(node, context),
  };
}

/** Reads by a spec, then turns the value into another; undefined from `turn` drops it (report there). */
export function mapped<A, B>(
  spec: Spec<A>,
  turn: (value: A, node: Node, context: ReadContext) => B | undefined,
): Spec<B> {
  return {
    shape: spec.shape,
    accepts: spec.accepts,
    read: (node, context) => {
      const value = spec.read(node, context);
      return value === undefined ? undefined : turn(value, node, context);
    },
  };
}

/** What a shape is, in words that follow 'must be'. */
export function describe(shape: Shape): string {
  switch (shape.is) {
    case 'text':
      if (shape.form) return `${shape.form.name} such as "${shape.form.example}"`;
      return shape.values ? `one of ${shape.values.map(value => `"${value}"`).join(', ')}` : 'a text';
    case 'quantity':
      return `a number or a text with a unit (${shape.quantity.replaceAll('_', ' ')})`;
    case 'number':
      return shape.whole ? 'a whole number' : 'a number';
    case 'truth':
      return 'true or false';
    case 'list':
      return 'a list in square brackets';
    case 'object':
    case 'map':
      return 'an object in braces';
    case 'either':
      return shape.options.map(describe).join(', or ');
  }
}

function article(type: JsonType | 'property'): string {
  const words: Record<string, string> = {
    object: 'an object',
    array: 'a list',
    string: 'a text',
    number: 'a number',
    boolean: 'true or false',
  };
  return words[type] ?? 'null';
}

function clip(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

type Property = { key: string; keyNode: Node; valueNode: Node };

function properties(node: Node, context: ReadContext): Property[] {
  const found = new Map<string, Property>();
  for (const property of node.children ?? []) {
    const [keyNode, valueNode] = property.children ?? [];
    if (!keyNode || !valueNode || typeof keyNode.value !== 'string') continue;
    if (found.has(keyNode.value))
      context.report(
        'setup-key-twice',
        keyNode,
        `"${clip(keyNode.value)}" stands twice; the last one counts.`,
      );
    found.set(keyNode.value, { key: keyNode.value, keyNode, valueNode });
  }
  return [...found.values()];
}
