import { NEED_WORDS } from './needs.ts';
import type { Need } from './rule.ts';
import type { ToolUse } from './tool-use.ts';

/** What could not be checked, gathered by what is missing; a rule stands under the first thing that it lacks. */
export class Gaps {
  private readonly entries = new Map<string, { need: Need; titles: string[]; tools: Set<number> }>();

  add(use: ToolUse | undefined, need: Need, title: string): void {
    const key = `${need} ${use ? title : ''}`;
    const entry = this.entries.get(key);
    if (!entry) {
      this.entries.set(key, { need, titles: [title], tools: new Set(use ? [use.number] : []) });
      return;
    }
    if (use) entry.tools.add(use.number);
    if (!entry.titles.includes(title)) entry.titles.push(title);
  }

  /** One sentence for each thing that is missing, for the tools that lack it. */
  words(): string[] {
    const lines = new Map<string, string[]>();
    for (const { need, titles, tools } of this.entries.values()) {
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
