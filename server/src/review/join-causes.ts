import type { Finding } from './finding.ts';

/** Further places that are named; the rest is only counted. */
const RELATED_CAP = 20;

/** Findings of one code, tool and message shape become the first of them, with the others as related places. */
export function joinSameCause(findings: readonly Finding[]): Finding[] {
  const groups = new Map<string, Finding[]>();
  let last: Finding | undefined;
  let open: Finding[] = [];
  const shapes = new Map<string, string>();
  const shapeOf = (message: string) => {
    let shape = shapes.get(message);
    if (shape === undefined) {
      shape = message.replace(/[-+.\d]+/g, '#');
      shapes.set(message, shape);
    }
    return shape;
  };
  for (const finding of findings) {
    // Most stand beside one of their kind: no key is made for those.
    if (last && isAlike(finding, last) && shapeOf(finding.message) === shapeOf(last.message)) {
      open.push(finding);
      continue;
    }
    const key = `${finding.code} ${finding.tool ?? ''} ${finding.file ?? ''} ${finding.severity} ${shapeOf(finding.message)}`;
    const group = groups.get(key);
    open = group ?? [];
    open.push(finding);
    if (!group) groups.set(key, open);
    last = finding;
  }
  const joined: Finding[] = [];
  for (const group of groups.values()) {
    if (group.length > 1) group.sort((a, b) => a.line - b.line || a.column - b.column);
    const first = group[0];
    const rest = group.slice(1);
    if (rest.length === 0) {
      joined.push(first);
      continue;
    }
    const related = [
      ...(first.related ?? []),
      ...rest.slice(0, RELATED_CAP).map(f => ({ line: f.line, message: f.message })),
    ];
    const count = rest.length === 1 ? 'one more place' : `${rest.length} more places`;
    joined.push({ ...first, message: `${first.message} The same at ${count}.`, related });
  }
  return joined;
}

/** Alike in all but the message. */
function isAlike(a: Finding, b: Finding): boolean {
  return a.code === b.code && a.tool === b.tool && a.file === b.file && a.severity === b.severity;
}
