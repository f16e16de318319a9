import { chooseDialect } from './choose-dialect.ts';
import type { ServerCommand } from './command.ts';
import { confirmAllTools } from './confirm-all-tools.ts';
import { confirmTool } from './confirm-tool.ts';
import { openSetupSheet } from './open-setup-sheet.ts';
import { checkBeforeSending, showReport } from './pages.ts';
import { renumber } from './renumber.ts';
import { sayBlock } from './say-block.ts';

/** The one table of commands that the server answers. */
export const serverCommands: readonly ServerCommand[] = [
  checkBeforeSending,
  chooseDialect,
  confirmAllTools,
  confirmTool,
  openSetupSheet,
  renumber,
  sayBlock,
  showReport,
];
