import { CancellationToken, LSPErrorCodes, ResponseError, type RemoteConsole } from 'vscode-languageserver';

/**
 * A feature that crashes on one document says so in the log and answers with nothing, so that every other feature and
 * document goes on. An error meant for the client (malformed parameters) passes through. A request that was taken back
 * before its turn came is not begun.
 */
export function guardOn(console: Pick<RemoteConsole, 'error'>) {
  return <P, R>(feature: string, empty: Awaited<R>, handle: (params: P, token: CancellationToken) => R) => {
    const failed = (error: unknown): Awaited<R> => {
      if (error instanceof ResponseError) throw error;
      console.error(`${feature} failed: ${described(error)}`);
      return empty;
    };
    return (params: P, token: CancellationToken = CancellationToken.None): R | Awaited<R> => {
      stopIfCancelled(token);
      try {
        const answer = handle(params, token);
        return answer instanceof Promise ? (answer.catch(failed) as R) : answer;
      } catch (error) {
        return failed(error);
      }
    };
  };
}

/** Ends a request that the client has taken back, as the protocol says. */
export function stopIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested)
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was taken back.');
}

export function described(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
