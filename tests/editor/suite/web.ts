import 'mocha/mocha.js';
import * as vscode from 'vscode';
import { countLine, define, readOptions } from './define.ts';

/** mocha's own reporters for the browser write to a page; a worker has none. */
class Lines {
  constructor(runner: Mocha.Runner) {
    runner.on('suite', suite => void (suite.title && console.log(`  ${suite.title}`)));
    runner.on('pass', test => console.log(`    ok ${test.title} (${test.duration}ms)`));
    runner.on('pending', test => console.log(`    skipped ${test.title}`));
    runner.on('fail', (test, error) => console.log(`    FAILED ${test.title}\n${error.stack ?? error}`));
  }
}

/** Called by the editor's extension host, here a worker of the browser. */
export function run(): Promise<void> {
  const url = vscode.workspace.getConfiguration('editorHost').get<string>('url');
  const { fail, grep } = readOptions();
  mocha.setup({ ui: 'tdd', reporter: Lines as unknown as Mocha.ReporterConstructor, timeout: 60_000 });
  mocha.fgrep(grep);
  define({ kind: 'web', url, fail });
  return new Promise((done, failed) => {
    const runner = mocha.run(failures => {
      const { passes = 0, pending = 0 } = runner.stats ?? {};
      console.log(countLine(passes, failures, pending));
      if (failures) failed(new Error(`${failures} failed`));
      else done();
    });
  });
}
