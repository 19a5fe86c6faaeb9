import {
  ErrorCodes,
  Message,
  ResponseError,
  type Connection,
  type ConnectionOptions,
  type RequestMessage,
} from 'vscode-languageserver';

type LifeStage = 'new' | 'initialized' | 'shut down';

/**
 * The order of a server's life, as the protocol has it. The library answers whatever comes whenever it comes; this refuses
 * requests before `initialize` and after `shutdown` with the protocol's errors, and passes over notifications at those times,
 * `exit` excepted. With which status the process ends at `exit` is the library's own doing.
 */
export class Lifecycle {
  private state: LifeStage = 'new';

  /** Options to create the connection with. */
  readonly options: ConnectionOptions = {
    messageStrategy: {
      handleMessage: (message, next) => {
        if (Message.isRequest(message)) next(this.admitted(message));
        else if (!Message.isNotification(message) || this.state === 'initialized' || message.method === 'exit')
          next(message);
      },
    },
  };

  /** Call before the connection listens. */
  listen(connection: Connection): void {
    connection.onRequest(refusedMethod, (params: unknown) => {
      throw params instanceof Refused
        ? new ResponseError(params.code, params.message)
        : new ResponseError(ErrorCodes.MethodNotFound, `Unhandled method ${refusedMethod}`);
    });
  }

  /** Call when `initialize` is answered: from now on requests are let through. */
  initialized(): void {
    this.state = 'initialized';
  }

  /** The request as it is passed on to its handler: as it is, or turned into a refusal. */
  private admitted(request: RequestMessage): RequestMessage {
    const refused = this.refusal(request);
    if (refused) return { ...request, method: refusedMethod, params: refused };
    if (request.method === 'shutdown') this.state = 'shut down';
    return request.method === 'initialize' ? { ...request, params: soundParams(request.params) } : request;
  }

  private refusal({ method, params }: RequestMessage): Refused | null {
    switch (this.state) {
      case 'new':
        if (method !== 'initialize')
          return new Refused(ErrorCodes.ServerNotInitialized, `${method}: the server is not initialized yet.`);
        return isObject(params)
          ? null
          : new Refused(ErrorCodes.InvalidParams, 'initialize: the parameters are no object.');
      case 'initialized':
        return method === 'initialize'
          ? new Refused(ErrorCodes.InvalidRequest, 'initialize: the server is initialized already.')
          : null;
      case 'shut down':
        return new Refused(ErrorCodes.InvalidRequest, `${method}: the server is shut down, and waits for exit.`);
    }
  }
}

const refusedMethod = 'ungula/refused';

/** Why a request is refused. A class, so that no client can send one as parameters. */
class Refused {
  readonly code: number;
  readonly message: string;

  constructor(code: number, message: string) {
    this.code = code;
    this.message = message;
  }
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The parameters with the fields made sound that the library reads unchecked. */
function soundParams(params: unknown): Record<string, unknown> {
  const given = isObject(params) ? params : {};
  const { capabilities, processId } = given;
  return {
    ...given,
    capabilities: isObject(capabilities) ? capabilities : {},
    // The library ends the server when no process has this id, so an impossible id is dropped.
    processId: isProcess(processId) ? processId : null,
  };
}

const isProcess = (id: unknown): boolean => Number.isInteger(id) && (id as number) > 0 && (id as number) < 2 ** 31;
