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
  /** The latest order of each review that has not ended. */
  const open = new Map<string, number>();
  return {
    post(order) {
      if (order.ask === 'cut' || order.ask === 'leave') open.set(order.review, order.order);
      else open.delete(order.review);
      if (!worker) {
        // Loaded with the first order: a program without a setup sheet has none.
        const threads = require('node:worker_threads') as typeof import('node:worker_threads');
        worker = new threads.Worker(file);
        worker.on('message', (answer: StockAnswer) => {
          if (answer.tell !== 'piece' && open.get(answer.review) === answer.order) open.delete(answer.review);
          listen(answer);
        });
        worker.on('error', error => {
          worker = undefined;
          const lost = [...open];
          open.clear();
          for (const [review, order] of lost) listen({ tell: 'lost', review, order, why: String(error) });
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
