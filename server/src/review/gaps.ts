import { NEED_WORDS } from './needs.ts';
import type { Need } from './rule.ts';
import type { ToolUse } from './tool-use.ts';

/** What could not be checked, gathered by what is missing; a rule stands under the first thing that it lacks. */
export class Gaps {
  private readonly missing: { use: ToolUse | undefined; need: Need; title: string }[] = [];

  add(use: ToolUse | undefined, need: Need, title: string): void {
    this.missing.push({ use, need, title });
  }

  /** One sentence for each thing that is missing, for the tools that lack it. */
  words(): string[] {
    const entries = new Map<string, { need: Need; titles: string[]; tools: Set<number> }>();
    for (const { use, need, title } of this.missing) {
      const key = `${need} ${use ? title : ''}`;
      const entry = entries.get(key) ?? { need, titles: [], tools: new Set<number>() };
      entries.set(key, entry);
      if (use) entry.tools.add(use.number);
      if (!entry.titles.includes(title)) entry.titles.push(title);
    }
    const lines = new Map<string, string[]>();
    for (const { need, titles, tools } of entries.values()) {
      const what = NEED_WORDS[need].replace(/^the kind of tool$/, 'the kind');
      const names = [...tools].sort((a, b) => a - b).map(tool => (tool < 0 ? 'the tool' : `T${tool}`));
      const subject = names.length === 0 ? NEED_WORDS[need] : `${what} of ${names.join(', ')}`;
      lines.set(subject, [...(lines.get(subject) ?? []), ...titles]);
    }
    return [...lines].map(([subject, titles]) => {
      const checks = titles.map(title => title[0].toLowerCase() + title.slice(1)).join('; ');
      return `${subject} is not known, so not checked: ${checks}`;
    });
  }
}
