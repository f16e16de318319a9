import { fileURLToPath } from 'node:url';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { type Arguments, type OptionRow, readArguments } from './arguments.ts';
import { type CheckFormat, checkFile, type FileCheck } from './check-file.ts';

/** What a checking thread is started with. */
interface PoolData {
  argv: readonly string[];
  format: CheckFormat;
}

/**
 * Checks files and hands each result on in the order of the files. With more than one job, threads of this same
 * program work on files side by side.
 */
export async function checkFiles(
  files: readonly string[],
  args: Arguments,
  format: CheckFormat,
  jobs: number,
  take: (result: FileCheck) => void,
): Promise<void> {
  const threads = Math.min(jobs, files.length);
  if (threads <= 1 || files.includes('-')) {
    for (const file of files) take(await checkFile(file, args, format));
    return;
  }
  const ready = new Map<number, FileCheck>();
  let next = 0;
  let shown = 0;
  const show = () => {
    for (let result = ready.get(shown); result; result = ready.get(shown)) {
      ready.delete(shown++);
      take(result);
    }
  };
  const data: PoolData = { argv: args.argv, format };
  const work = () =>
    new Promise<void>((done, fail) => {
      const worker = new Worker(fileURLToPath(import.meta.url), { workerData: data });
      let at = -1;
      const order = () => {
        at = next++;
        if (at >= files.length) void worker.terminate().then(() => done(), fail);
        else worker.postMessage(files[at]);
      };
      worker.on('message', (result: FileCheck) => {
        ready.set(at, result);
        show();
        order();
      });
      worker.on('error', fail);
      order();
    });
  await Promise.all(Array.from({ length: threads }, work));
}

/** A checking thread: answers each file that it is sent. */
export function serveChecks(options: readonly OptionRow[]): void {
  const { argv, format } = workerData as PoolData;
  const args = readArguments(argv, options);
  parentPort?.on('message', (file: string) => {
    void checkFile(file, args, format).then(result => parentPort?.postMessage(result));
  });
}
