import { ResponseError, type RemoteConsole } from 'vscode-languageserver';

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
        if (error instanceof ResponseError) throw error;
        console.error(`${feature} failed: ${described(error)}`);
        return empty;
      }
    };
}

export function described(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
