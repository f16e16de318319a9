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
  from: 'setup' | 'crib' | 'comment';
  confirmed: boolean;
  id?: string;
  tool: ToolProperties;
  stated?: boolean;
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
    layers.push({ from: 'setup', confirmed: true, tool, stated: true });
    const shared = crib && cribTool(cribs, crib.value);
    if (shared && crib)
      layers.push({ from: 'crib', confirmed: true, id: crib.value, tool: shared, stated: true });
    else if (crib)
      question = ask(number, 'tool', `no tool "${crib.value.slice(0, 60)}" in the crib`, crib.origin.line);
  }
  const standing = machine.machine?.standing?.get(number);
  if (standing) {
    const tool = cribTool(machine.crib ? [machine.crib, ...cribs] : cribs, standing.id);
    if (tool)
      layers.push({
        from: 'crib',
        confirmed: true,
        id: standing.id,
        tool: asStanding(tool, number, machine.name ?? ''),
      });
    else question ??= ask(number, 'tool', `no tool "${standing.id.slice(0, 60)}" in the crib`, standing.line);
  }
  const ids = reading ? called.find(reading) : [];
  const match = ids[0] === undefined ? undefined : cribTool(cribs, ids[0]);
  if (layers.length === 0 && ids.length > 1) {
    question ??= {
      ...ask(number, 'tool', 'the comment fits two tools of the crib', reading?.comments[0]?.line),
      choices: ids.map(id => ({ value: id, text: id })),
    };
  } else if (match && ids[0] !== undefined && ids.length === 1) {
    if (!fromComment || agrees(match, fromComment))
      layers.push({ from: 'crib', confirmed: true, id: ids[0], tool: match });
    else
      question ??= ask(
        number,
        'tool',
        `crib tool "${ids[0]}" is called so, but the size in this comment is another`,
        reading?.comments[0]?.line,
      );
  }
  if (fromComment) layers.push({ from: 'comment', confirmed: false, tool: fromComment });
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
  let cribId: string | undefined;
  let from: ToolKnown['from'];
  let confirmed = false;
  for (const layer of layers) {
    if (!layer.stated && !agrees(merged, layer.tool)) {
      contradictions.push(...contradictionsOf(merged, layer.tool));
      continue;
    }
    Object.assign(merged, { ...layer.tool, ...merged });
    cribId ??= layer.id;
    if (from === undefined && Object.keys(layer.tool).length > 0) {
      from = layer.from;
      confirmed = layer.confirmed;
    }
  }
  fillFromDesignations(merged);
  const doubt = reading?.doubts.find(({ about }) => merged[about] === undefined);
  const open =
    question ??
    (doubt && { tool: number, about: doubt.about, why: doubt.why, line: doubt.line, choices: doubt.choices });
  return { ...merged, number, from, confirmed, cribId, reading, question: open, contradictions };
}

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

function asStanding(tool: ToolProperties, number: number, machine: string): ToolProperties {
  const renamed = Object.entries(tool).map(([name, value]) => {
    if (!value || !('origin' in value)) return [name, value];
    const origin: Origin = {
      ...value.origin,
      from: 'standing',
      where: `standing tool ${number} of ${machine}: ${value.origin.where}`,
    };
    return [name, { ...value, origin }];
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

function ask(
  tool: number,
  about: ToolQuestion['about'],
  why: string,
  line: number | undefined,
): ToolQuestion {
  return { tool, about, why, line, choices: [] };
}
