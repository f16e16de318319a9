import { type CommandRow, commandId, commands } from './commands.ts';
import { type SettingRow, settings } from './settings.ts';
import { steps } from './walkthrough.ts';

const programIsOpen = 'editorLangId == rs274';
/** When a command has its place, as the editor's own conditions. */
const conditions: Record<CommandRow['where'], string | undefined> = {
  program: programIsOpen,
  file: 'resourceLangId == rs274 || resourceExtname =~ /^\\.(nc|ngc|tap|cnc|eia)$/i',
  page: "activeWebviewPanelId == 'tapeproof.page'",
  always: undefined,
};
const rows: readonly CommandRow[] = commands;
const idOf = (row: CommandRow) => commandId(row.name as (typeof commands)[number]['name']);

/** The whole `contributes` part of the extension's manifest, made from the tables of this folder. */
export function contributes(): Record<string, unknown> {
  return {
    languages: languages(),
    grammars: [{ language: 'rs274', scopeName: 'source.rs274', path: './syntaxes/rs274.tmLanguage.json' }],
    commands: rows.map(row => ({
      command: idOf(row),
      title: row.title,
      category: 'Tapeproof',
      ...(row.icon ? { icon: row.icon } : {}),
      ...(row.where === 'program' ? { enablement: programIsOpen } : {}),
    })),
    keybindings: rows
      .filter(row => row.key)
      .map(row => ({ command: idOf(row), key: row.key, when: `editorTextFocus && ${programIsOpen}` })),
    menus: menus(),
    configuration: { title: 'Tapeproof', properties: Object.fromEntries(settings.map(propertyOf)) },
    configurationDefaults: {
      '[rs274]': { 'editor.inlayHints.maximumLength': 0, 'editor.wordBasedSuggestions': 'off' },
    },
    jsonValidation: [
      { fileMatch: '*.setup.json', url: './dist/schemas/setup.schema.json' },
      { fileMatch: 'crib.json', url: './dist/schemas/crib.schema.json' },
    ],
    walkthroughs: [
      {
        id: 'firstSteps',
        title: 'First steps with Tapeproof',
        description: 'What a program does at the cutting edge, in four steps on a small job.',
        steps: steps.map(step => ({
          id: step.id,
          title: step.title,
          description: `${step.text}\n[${step.button}](command:${commandId(step.command)})`,
          media: { markdown: `client/walkthrough/${step.id}.md` },
          completionEvents: [`onCommand:${commandId(step.command)}`],
        })),
      },
    ],
  };
}

function languages() {
  return [
    {
      id: 'rs274',
      aliases: ['RS-274 (G-code)', 'rs274', 'G-code'],
      extensions: ['.nc', '.ngc', '.tap', '.cnc', '.eia'],
      // For files without an ending that says what they are: tape mark alone, program number, or a numbered block.
      firstLine: '^\\uFEFF?\\s*(%\\s*$|[Oo:]\\d{1,8}\\s*(\\(.*)?$|[Nn]\\d{1,8}\\s*[Gg]\\d)',
      configuration: './language-configuration.json',
    },
    { id: 'jsonc', filenamePatterns: ['*.setup.json', 'crib.json'] },
  ];
}

function menus() {
  const found: Record<string, unknown[]> = {};
  for (const row of rows) {
    if (row.menu) {
      const when = conditions[row.where];
      const group = row.menu === 'editor/title' ? 'navigation' : 'tapeproof';
      found[row.menu] = [...(found[row.menu] ?? []), { command: idOf(row), when, group }];
    }
  }
  const hidden = rows.filter(row => row.where === 'program' || row.where === 'page');
  return {
    ...found,
    commandPalette: hidden.map(row => ({ command: idOf(row), when: conditions[row.where] })),
  };
}

function propertyOf(row: SettingRow): [string, Record<string, unknown>] {
  const values = row.choices?.map(choice => choice.value);
  const meanings = row.choices?.map(choice => choice.means);
  const choice = values && { enum: values, enumDescriptions: meanings };
  return [
    `tapeproof.${row.name}`,
    {
      type: row.type,
      default: row.default,
      markdownDescription: row.description,
      scope: row.scope,
      ...(row.type === 'object' ? { additionalProperties: { type: 'string', ...choice } } : choice),
      ...(row.least === undefined ? {} : { minimum: row.least }),
      ...(row.most === undefined ? {} : { maximum: row.most }),
    },
  ];
}
