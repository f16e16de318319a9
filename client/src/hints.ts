import * as vscode from 'vscode';
import { type HintLevel, hintLevels } from './tables/settings.ts';

const meaning: Record<HintLevel, string> = {
  off: 'Nothing is shown beside the lines.',
  changes: 'Shown beside the lines: changes, and what leaves its window.',
  every: 'Shown beside every line that cuts.',
};

/** Goes to the next level of hints, writes it where it is set now, and says it in the status bar for a moment. */
export async function cycleHints(): Promise<HintLevel> {
  const configuration = vscode.workspace.getConfiguration(
    'tapeproof',
    vscode.window.activeTextEditor?.document.uri,
  );
  const now = configuration.get<HintLevel>('hints.level', 'changes');
  const next = hintLevels[(hintLevels.indexOf(now) + 1) % hintLevels.length];
  await configuration.update('hints.level', next, targetOf(configuration.inspect('hints.level')));
  vscode.window.setStatusBarMessage(meaning[next], 4000);
  return next;
}

function targetOf(set: ReturnType<vscode.WorkspaceConfiguration['inspect']>): vscode.ConfigurationTarget {
  if (set?.workspaceFolderValue !== undefined) return vscode.ConfigurationTarget.WorkspaceFolder;
  if (set?.workspaceValue !== undefined) return vscode.ConfigurationTarget.Workspace;
  return vscode.ConfigurationTarget.Global;
}
