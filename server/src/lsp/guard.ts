import type { CancellationToken, Connection } from 'vscode-languageserver';
import { LSPErrorCodes, ResponseError } from './library.ts';

/**
 * The wrapper around every handler: a cancelled request answers so, a failure is logged with what it was
 * about and answers empty. The server lives on.
 */
export function guard<P, R>(
  connection: Connection,
  name: string,
  empty: R,
  handle: (params: P, token: CancellationToken) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R | ResponseError<void>> {
  return async (params, token) => {
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
    try {
      return await handle(params, token);
    } catch (error) {
      const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
      connection.console.error(`${name}: ${words}`);
      return empty;
    }
  };
}
