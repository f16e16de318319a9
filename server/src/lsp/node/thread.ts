import { existsSync } from 'node:fs';
import path from 'node:path';
import type { Worker } from 'node:worker_threads';
import { workHere } from '../work/here.ts';
import type { StockAnswer } from '../work/stock-messages.ts';
import type { Post } from '../work/stock-work.ts';

/** The worker in a thread of its own, started with the first order; in the server's thread where its file is missing. */
export function workInThread(folder: string): Post {
  const file = path.join(folder, 'worker.node.js');
  if (!existsSync(file)) return workHere();
  let worker: Worker | undefined;
  let listen: (answer: StockAnswer) => void = () => undefined;
  return {
    post(order) {
      if (!worker) {
        // Loaded with the first order: a program without a setup sheet has none.
        const threads = require('node:worker_threads') as typeof import('node:worker_threads');
        worker = new threads.Worker(file);
        worker.on('message', (answer: StockAnswer) => listen(answer));
        worker.on('error', () => {
          worker = undefined;
        });
        worker.unref();
      }
      worker.postMessage(order);
    },
    hear: heard => {
      listen = heard;
    },
  };
}
