/** Every command of the extension: the manifest, the manual and the client's registration are made from this table. */
export interface CommandRow {
  /** Without the leading `tapeproof.`; a server command sends the request `tapeproof/<name>`. */
  name: string;
  title: string;
  /** One or two sentences for the manual. */
  does: string;
  /** `program`: needs a program in front; `file`: a program file, also from the folder view; `page`: one of our pages in front; `always`: everywhere. */
  where: 'program' | 'file' | 'page' | 'always';
  /** `client`: done by the extension alone; `server`: the language server answers. */
  by: 'client' | 'server';
  key?: string;
  icon?: string;
  menu?: 'editor/context' | 'editor/title' | 'explorer/context';
}

export const commands = [
  {
    name: 'cycleHints',
    title: 'Change How Much Is Shown Beside the Lines',
    does: 'Goes to the next level of hints: off, changes only, every block.',
    where: 'always',
    by: 'client',
    key: 'shift+alt+h',
  },
  {
    name: 'sayBlock',
    title: 'Say This Block in Plain Sentences',
    does: 'Shows the block under the cursor as plain sentences: what it does, with which tool, and how it cuts. Reads well aloud.',
    where: 'program',
    by: 'server',
    key: 'shift+alt+b',
    menu: 'editor/context',
  },
  {
    name: 'openSetupSheet',
    title: 'Open the Setup Sheet',
    does: 'Opens the setup sheet of this program. Where there is none, shows a new one, filled with what the program itself says and not yet saved.',
    where: 'program',
    by: 'server',
    icon: '$(checklist)',
    menu: 'editor/title',
  },
  {
    name: 'confirmTool',
    title: 'Confirm the Tool Here',
    does: 'Confirms what was read from the comment of the tool that cuts at the cursor, or asks for what is missing: each tooth count is listed with the chip load that follows from it, and none is chosen beforehand.',
    where: 'program',
    by: 'server',
    key: 'shift+alt+t',
    menu: 'editor/context',
  },
  {
    name: 'confirmAllTools',
    title: 'Confirm All Tools',
    does: 'Lists every tool that was read from a comment and confirms those that are ticked.',
    where: 'program',
    by: 'server',
  },
  {
    name: 'chooseDialect',
    title: 'Choose the Dialect',
    does: 'Says which dialect, units and number form were recognised and why; another choice is written to the setup sheet.',
    where: 'program',
    by: 'server',
  },
  {
    name: 'checkBeforeSending',
    title: 'Check Before Sending',
    does: 'One page: what stops this program, what was not checked and why, the time, and the caution.',
    where: 'program',
    by: 'server',
    icon: '$(pass)',
    menu: 'editor/title',
  },
  {
    name: 'showReport',
    title: 'Show the Review',
    does: 'The whole review of this program as a page: tools, operations, times, findings, what was not checked.',
    where: 'program',
    by: 'server',
  },
  {
    name: 'showProveout',
    title: 'Show the Prove-out Sheet',
    does: 'The sheet for the machine: a row a tool with first contact and the steps up, what to watch, blanks for what was seen. Saved with "Save This Page to Print".',
    where: 'program',
    by: 'server',
  },
  {
    name: 'explain',
    title: 'Explain the Word or Finding Here',
    does: 'Opens the page of the finding or the word at the cursor: what it is, formula, range, source, what to do.',
    where: 'program',
    by: 'server',
    menu: 'editor/context',
  },
  {
    name: 'reviewFromDisk',
    title: 'Review This File From Disk',
    does: 'Reviews a program file without opening it. The editor shows extensions no file above 50 Mi characters; this command works for them too, up to 400 MB.',
    where: 'file',
    by: 'server',
    menu: 'explorer/context',
  },
  {
    name: 'renumber',
    title: 'Renumber the Blocks',
    does: 'Numbers the blocks anew and keeps jumps to block numbers right. One edit, undone in one step.',
    where: 'program',
    by: 'server',
  },
  {
    name: 'savePage',
    title: 'Save This Page to Print',
    does: 'Saves the page in front as a file and opens it in the browser, which can print it.',
    where: 'page',
    by: 'client',
    icon: '$(save-as)',
    menu: 'editor/title',
  },
  {
    name: 'openSampleJob',
    title: 'Open the Sample Job',
    does: 'Copies a small job with its setup sheet into a folder of the extension and opens it.',
    where: 'always',
    by: 'client',
  },
  {
    name: 'openWalkthrough',
    title: 'Show the First Steps',
    does: 'Shows the four first steps again. Nothing else ever opens them.',
    where: 'always',
    by: 'client',
  },
  {
    name: 'restartServer',
    title: 'Restart the Review',
    does: 'Ends the language server and starts it anew.',
    where: 'always',
    by: 'client',
  },
] as const satisfies readonly CommandRow[];

export type CommandName = (typeof commands)[number]['name'];

/** The identifier under which the editor knows a command. */
export const commandId = (name: CommandName): string => `tapeproof.${name}`;
