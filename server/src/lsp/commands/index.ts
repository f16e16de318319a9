import { chooseDialect } from './choose-dialect.ts';
import type { FileCommand, ServerCommand } from './command.ts';
import { confirmAllTools } from './confirm-all-tools.ts';
import { confirmTool } from './confirm-tool.ts';
import { explain } from './explain.ts';
import { openSetupSheet } from './open-setup-sheet.ts';
import { checkBeforeSending, showProveout, showReport } from './pages.ts';
import { renumber } from './renumber.ts';
import { reviewFromDisk } from './review-from-disk.ts';
import { sayBlock } from './say-block.ts';

/** The one table of commands that the server answers. */
export const serverCommands: readonly (ServerCommand | FileCommand)[] = [
  checkBeforeSending,
  chooseDialect,
  confirmAllTools,
  confirmTool,
  explain,
  openSetupSheet,
  renumber,
  reviewFromDisk,
  sayBlock,
  showProveout,
  showReport,
];
