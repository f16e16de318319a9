import Mocha from 'mocha';
import { countLine, define, readOptions } from './define.ts';

/** Called by the editor's extension host. */
export function run(): Promise<void> {
  const mocha = new Mocha({ ui: 'tdd', color: false, timeout: 60_000 });
  mocha.suite.emit('pre-require', globalThis, '', mocha);
  const { fail, grep } = readOptions();
  mocha.fgrep(grep);
  define({ kind: 'node', url: process.env.EDITOR_HOST_URL, fail });
  return new Promise((done, failed) => {
    const runner = mocha.run(failures => {
      const { passes = 0, pending = 0 } = runner.stats ?? {};
      console.log(countLine(passes, failures, pending));
      if (failures) failed(new Error(`${failures} failed`));
      else done();
    });
  });
}
