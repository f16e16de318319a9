import { calledKey, holdsSize } from './called.ts';
import { fillFromDesignations } from './designations.ts';
import type { Known, Origin } from './known.ts';
import { type MachineKnown, machineOf } from './machine-known.ts';
import type { Crib, SetupSheet } from './sheet.ts';
import { noToolNumber, type ToolReading } from './tool-comments.ts';
import type { CribTool, ToolProperties, ToolProperty } from './tool-keys.ts';
import { agrees, type Contradiction, contradictionsOf } from './tool-layers.ts';

/** A question about a tool that a person can answer with one click. */
export type ToolQuestion = {
  tool: number;
  about: ToolProperty | 'tool';
  why: string;
  line: number | undefined;
  choices: { value: number | string; text: string }[];
};

/** Everything known of one tool of the program. */
export type ToolKnown = ToolProperties & {
  number: number;
  /** Where the tool is known from, as the JSON output names it; absent when nothing is known. */
  from: 'setup' | 'crib' | 'comment' | undefined;
  /** Which of the sources the tool was known by first. */
  by: 'sheet' | 'standing' | 'called' | 'comment' | undefined;
  /** A person stated or confirmed this tool: sheet, standing tool, or a crib tool that the comment calls. */
  confirmed: boolean;
  /** Id in the crib, when a crib tool was used. */
  cribId: string | undefined;
  reading: ToolReading | undefined;
  /** At most one, the most important. */
  question: ToolQuestion | undefined;
  /** Where a comment says something else than what is known; the better source counts. */
  contradictions: Contradiction[];
};

export type ToolSources = {
  /** The tool numbers of the program. */
  tools: readonly number[];
  sheet?: SetupSheet | undefined;
  /** Nearest first: the folder tree's, then the person's. */
  cribs?: readonly Crib[];
  comments?: ReadonlyMap<number, ToolReading>;
  machine?: MachineKnown;
};

type Layer = {
  by: NonNullable<ToolKnown['by']>;
  /** Id of the crib tool that this layer is. */
  id?: string;
  tool: ToolProperties;
};

/**
 * What is known of each tool: setup sheet, then standing tool of the machine, then the crib tool that the comment calls so,
 * then what can be read from the comment. A lower source that names another diameter or kind speaks of another tool and
 * is left out whole.
 */
export function toolsOf(sources: ToolSources): Map<number, ToolKnown> {
  const cribs = sources.cribs ?? [];
  const machine = sources.machine ?? machineOf(sources.sheet, cribs);
  const called = calledIndex(cribs);
  const result = new Map<number, ToolKnown>();
  const unnamed = sources.comments?.has(noToolNumber) ? [noToolNumber] : [];
  for (const number of [...sources.tools, ...unnamed]) {
    if (!result.has(number)) result.set(number, toolOf(number, { ...sources, cribs, machine }, called));
  }
  return result;
}

/** Names of what is missing of a tool, as the outputs write it: `tool 3: teeth`. */
export function missingOf(tool: ToolKnown, needed: readonly ToolProperty[]): string[] {
  const name = tool.number < 0 ? 'the tool' : `tool ${tool.number}`;
  return needed
    .filter(property => tool[property] === undefined)
    .map(property => `${name}: ${property.replace(/_(mm|deg)$/, '').replaceAll('_', ' ')}`);
}

function toolOf(
  number: number,
  { sheet, cribs, machine, comments }: ToolSources & { cribs: readonly Crib[]; machine: MachineKnown },
  called: CalledIndex,
): ToolKnown {
  const reading = comments?.get(number);
  const fromComment = reading && propertiesOf(reading);
  const entry = sheet?.tools?.get(number);
  const layers: Layer[] = [];
  let question: ToolQuestion | undefined;
  if (entry) {
    const { crib, ...tool } = entry;
    layers.push({ by: 'sheet', tool });
    const shared = crib && cribTool(cribs, crib.value);
    if (shared && crib) layers.push({ by: 'sheet', id: crib.value, tool: shared });
    else if (crib) question = ask(number, noSuchTool(crib.value), crib.origin.line);
  }
  const standing = machine.machine?.standing?.get(number);
  if (standing) {
    const tool = cribTool(machine.crib ? [machine.crib, ...cribs] : cribs, standing.id);
    const place = `standing tool ${number} of ${machine.name ?? 'the machine'}`;
    if (tool) layers.push({ by: 'standing', id: standing.id, tool: standingAt(tool, place) });
    else question ??= ask(number, noSuchTool(standing.id), standing.line);
  }
  if (reading && !layers.some(({ id }) => id !== undefined)) {
    const ids = called.find(reading);
    const line = reading.comments[0]?.line;
    const [id, second] = ids;
    const tool = id === undefined ? undefined : cribTool(cribs, id);
    if (second !== undefined) {
      const choices = ids.map(each => ({ value: each, text: each }));
      question ??= { ...ask(number, 'the comment fits two tools of the crib', line), choices };
    } else if (id !== undefined && tool && fromComment && !agrees(tool, fromComment)) {
      question ??= ask(
        number,
        `crib tool "${id}" is called so, but the size in this comment is another`,
        line,
      );
    } else if (id !== undefined && tool) layers.push({ by: 'called', id, tool });
  }
  if (fromComment) layers.push({ by: 'comment', tool: fromComment });
  return join(number, layers, reading, question);
}

function join(
  number: number,
  layers: readonly Layer[],
  reading: ToolReading | undefined,
  question: ToolQuestion | undefined,
): ToolKnown {
  const merged: ToolProperties = {};
  const contradictions: Contradiction[] = [];
  const used: Layer[] = [];
  for (const layer of layers) {
    if (layer.by !== 'sheet' && !agrees(merged, layer.tool)) {
      contradictions.push(...contradictionsOf(merged, layer.tool));
      continue;
    }
    if (Object.keys(layer.tool).length > 0) used.push(layer);
    Object.assign(merged, { ...layer.tool, ...merged });
  }
  fillFromDesignations(merged);
  const decides = decisive.find(name => merged[name] !== undefined);
  const by =
    (decides === undefined ? undefined : used.find(({ tool }) => tool[decides] !== undefined)) ?? used[0];
  const doubt = reading?.doubts.find(({ about }) => merged[about] === undefined);
  const open =
    question ??
    (doubt && { tool: number, about: doubt.about, why: doubt.why, line: doubt.line, choices: doubt.choices });
  return {
    ...merged,
    number,
    from: by && outputNames[by.by](by),
    by: by?.by,
    confirmed: decides !== undefined && by !== undefined && by.by !== 'comment',
    cribId: used.find(({ id }) => id !== undefined)?.id,
    reading,
    question: open,
    contradictions,
  };
}

/** The property that says which tool it is: the first of these that is known. */
const decisive = [
  'diameter_mm',
  'insert',
  'nose_radius_mm',
  'width_mm',
  'pitch_mm',
  'kind',
] as const satisfies readonly ToolProperty[];

const outputNames: Record<Layer['by'], (layer: Layer) => NonNullable<ToolKnown['from']>> = {
  sheet: ({ id }) => (id === undefined ? 'setup' : 'crib'),
  standing: () => 'crib',
  called: () => 'crib',
  comment: () => 'comment',
};

function propertiesOf({ fields, uncertain }: ToolReading): ToolProperties {
  const result: Record<string, Known<unknown>> = {};
  for (const [name, read] of Object.entries(fields)) {
    const origin: Origin = { from: 'comment', where: `comment on line ${read.line}`, line: read.line };
    result[name] = { value: read.value, origin: uncertain === undefined ? origin : { ...origin, uncertain } };
  }
  return result as ToolProperties;
}

function cribTool(cribs: readonly Crib[], id: string): ToolProperties | undefined {
  for (const { tools } of cribs) {
    const found = tools?.get(id);
    if (!found) continue;
    const { called: _called, crib: _crib, ...tool }: CribTool = found;
    return tool;
  }
  return undefined;
}

function standingAt(tool: ToolProperties, place: string): ToolProperties {
  const renamed = Object.entries(tool).map(([name, value]) => {
    if (!value || !('origin' in value)) return [name, value];
    return [
      name,
      { ...value, origin: { ...value.origin, from: 'standing', where: `${place}: ${value.origin.where}` } },
    ];
  });
  return Object.fromEntries(renamed) as ToolProperties;
}

type CalledIndex = { find: (reading: ToolReading) => string[] };

function calledIndex(cribs: readonly Crib[]): CalledIndex {
  const byKey = new Map<string, Set<string>>();
  for (const { tools } of cribs) {
    for (const [id, { called }] of tools ?? []) {
      for (const { text } of called ?? []) {
        if (!holdsSize(text)) continue;
        const key = calledKey(text);
        byKey.set(key, (byKey.get(key) ?? new Set()).add(id));
      }
    }
  }
  return {
    find: ({ comments }) => [
      ...new Set(comments.flatMap(({ text }) => [...(byKey.get(calledKey(text)) ?? [])])),
    ],
  };
}

function noSuchTool(id: string): string {
  return `no tool "${id.slice(0, 60)}" in the crib`;
}

function ask(tool: number, why: string, line: number | undefined): ToolQuestion {
  return { tool, about: 'tool', why, line, choices: [] };
}
