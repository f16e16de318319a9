import { parentPort } from 'node:worker_threads';
import type { StockAnswer, StockOrder } from '../work/stock-messages.ts';
import { StockWorker } from '../work/stock-worker.ts';

const port = parentPort;
if (!port) throw new Error('this file runs as a worker of the language server');
const worker = new StockWorker(
  (answer: StockAnswer) =>
    port.postMessage(answer, answer.tell === 'piece' ? [answer.rows.buffer as ArrayBuffer] : []),
  () => performance.now(),
  piece => setImmediate(piece),
);
port.on('message', (order: StockOrder) => worker.take(order));
