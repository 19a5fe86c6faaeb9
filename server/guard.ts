import { ResponseError, type CancellationToken, type RemoteConsole } from 'vscode-languageserver';

/**
 * A feature that crashes on one document says so in the log and answers with nothing, so that every other feature and
 * document goes on. An error meant for the client (malformed parameters) passes through.
 */
export function guardOn(console: Pick<RemoteConsole, 'error'>) {
  return <P, R>(feature: string, empty: R, handle: (params: P) => R) =>
    (params: P): R => {
      try {
        return handle(params);
      } catch (error) {
        return failed(console, feature, empty, error);
      }
    };
}

/** The same for a feature that waits for something. */
export function guardLaterOn(console: Pick<RemoteConsole, 'error'>) {
  return <P, R>(feature: string, empty: R, handle: (params: P, token: CancellationToken) => Promise<R>) =>
    async (params: P, token: CancellationToken): Promise<R> => {
      try {
        return await handle(params, token);
      } catch (error) {
        return failed(console, feature, empty, error);
      }
    };
}

function failed<R>(console: Pick<RemoteConsole, 'error'>, feature: string, empty: R, error: unknown): R {
  if (error instanceof ResponseError) throw error;
  console.error(`${feature} failed: ${described(error)}`);
  return empty;
}

export function described(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
