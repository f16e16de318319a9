import type { StockAnswer } from './stock-messages.ts';
import type { Post } from './stock-work.ts';
import { StockWorker } from './stock-worker.ts';

/** The worker in the server's own thread, in pieces between messages: where no further thread can be had. */
export function workHere(): Post {
  let listen: (answer: StockAnswer) => void = () => undefined;
  const later = (piece: () => void) => setTimeout(piece, 0);
  const worker = new StockWorker(
    answer => listen(answer),
    () => performance.now(),
    later,
  );
  return {
    post: order => later(() => worker.take(order)),
    hear: heard => {
      listen = heard;
    },
  };
}
