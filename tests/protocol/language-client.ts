import { spawn, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { once } from 'node:events';
import {
  CancellationTokenSource,
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type MessageConnection,
} from 'vscode-jsonrpc/node';
import type {
  ClientCapabilities,
  CodeAction,
  CodeActionContext,
  CompletionItem,
  CompletionList,
  Diagnostic,
  DocumentSymbol,
  Hover,
  InitializeResult,
  Position,
  PublishDiagnosticsParams,
  Range,
  TextDocumentContentChangeEvent,
  TextEdit,
} from 'vscode-languageserver';
import {
  listFolderRequest,
  readFileRequest,
  readPictureRequest,
  type FileParams,
  type FolderEntry,
  type FilePiece,
  type PieceParams,
} from '../../shared/protocol/files.ts';
import { serverBundle } from './server-bundle.ts';

export interface ClientOptions {
  readonly capabilities?: ClientCapabilities;
  /** Answers to `workspace/configuration`, by section. */
  readonly configuration?: Record<string, unknown>;
  /** URI of the folder that is open. */
  readonly folder?: string;
  /** URIs of the folders, where there are several. */
  readonly folders?: readonly string[];
  /** Node's arguments that start the server; the bundle of what stands in the checkout now where there are none. */
  readonly command?: readonly string[];
  /** What is sent before the server is initialised, as no client should. */
  readonly early?: (client: LanguageClient) => void;
  /** What the client reads for the server, by URI; where it is given the client says that it answers for files. */
  readonly files?: Readonly<Record<string, Uint8Array | readonly FolderEntry[]>>;
  /** Called with the name of each request of the server to ask anew for what stands in the text. */
  readonly onRefresh?: (method: string) => void;
  /** Given as `initializationOptions`. */
  readonly options?: unknown;
  /** The parameters of `initialize`, whatever they are, in place of all that the above makes of them. */
  readonly initialize?: unknown;
}

/** What an editor with all that a workspace needs says of itself: it asks for findings, watches files, shows progress. */
export const wholeWorkspace: ClientCapabilities = {
  textDocument: {
    diagnostic: { relatedDocumentSupport: false, relatedInformation: true },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    rename: { prepareSupport: true },
  },
  workspace: {
    workspaceEdit: { documentChanges: true },
    workspaceFolders: true,
    didChangeWatchedFiles: { dynamicRegistration: true },
    diagnostics: { refreshSupport: true },
  },
  window: { workDoneProgress: true },
};

const usual: ClientCapabilities = {
  textDocument: {
    completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    rename: { prepareSupport: true },
    rangeFormatting: { rangesSupport: true },
    signatureHelp: { signatureInformation: { parameterInformation: { labelOffsetSupport: true } } },
  },
  workspace: { workspaceEdit: { documentChanges: true } },
};

/** A language client over stdio, as small as the tests allow. The server is a process of its own. */
export class LanguageClient {
  readonly #child: ChildProcessWithoutNullStreams;
  readonly #connection: MessageConnection;
  readonly #told: PublishDiagnosticsParams[] = [];
  readonly #waiting = new Set<() => void>();
  readonly log: string[] = [];
  /** What the server had shown to the user. */
  /** How often the case files of the folders were said to have changed. */
  caseNews = 0;
  readonly shown: string[] = [];
  /** URIs that the server had read or listed, in order. */
  readonly asked: string[] = [];
  /** What the server asked its client for, the refreshing of what stands in the text left out. */
  readonly askedFor: { readonly method: string; readonly params: unknown }[] = [];
  /** Everything that was told under a progress token. */
  readonly progress: { readonly token: string | number; readonly value: unknown }[] = [];
  initialized!: InitializeResult;

  private constructor(command: readonly string[]) {
    this.#child = spawn(process.execPath, command);
    this.#child.stderr.on('data', (data: Buffer) => this.log.push(data.toString()));
    this.#connection = createMessageConnection(
      new StreamMessageReader(this.#child.stdout),
      new StreamMessageWriter(this.#child.stdin),
    );
    this.#connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.#told.push(params);
      for (const look of this.#waiting) look();
    });
    this.#connection.onNotification(
      'window/logMessage',
      ({ message }: { message: string }) => void this.log.push(message),
    );
    this.#connection.onNotification('ungula/casesChanged', () => void this.caseNews++);
    this.#connection.onNotification('window/showMessage', ({ message }: { message: string }) => {
      this.shown.push(message);
      for (const look of this.#waiting) look();
    });
    this.#connection.onUnhandledProgress(({ token, value }) => {
      this.progress.push({ token, value });
      for (const look of this.#waiting) look();
    });
    for (const method of [
      'client/registerCapability',
      'window/workDoneProgress/create',
      'workspace/diagnostic/refresh',
    ])
      this.#connection.onRequest(method, (params: unknown) => {
        this.askedFor.push({ method, params });
        for (const look of this.#waiting) look();
        return null;
      });
    this.#connection.listen();
  }

  static async start({
    capabilities = usual,
    configuration,
    folder,
    folders = folder === undefined ? [] : [folder],
    command,
    early,
    files,
    onRefresh,
    options,
    initialize,
  }: ClientOptions = {}): Promise<LanguageClient> {
    const client = new LanguageClient(command ?? [await serverBundle(), '--stdio']);
    for (const method of ['workspace/inlayHint/refresh', 'workspace/codeLens/refresh'])
      client.#connection.onRequest(method, () => {
        onRefresh?.(method);
        return null;
      });
    if (configuration)
      client.#connection.onRequest('workspace/configuration', ({ items }: { items: { section: string }[] }) =>
        items.map(({ section }) => configuration[section] ?? null),
      );
    early?.(client);
    const found = (uri: string): Uint8Array | readonly FolderEntry[] | null => {
      client.asked.push(uri);
      return files?.[uri] ?? null;
    };
    client.#connection.onRequest(readFileRequest, ({ uri }: FileParams) => {
      const file = found(uri);
      return file instanceof Uint8Array ? Buffer.from(file).toString('base64') : null;
    });
    client.#connection.onRequest<FilePiece, void>(readPictureRequest, ({ uri, start, length }: PieceParams) => {
      const file = found(uri);
      if (!(file instanceof Uint8Array)) return { refused: file ? 'a folder' : 'not there' };
      const bytes = Buffer.from(file.subarray(start, start + length)).toString('base64');
      return { size: file.length, stamp: '1', bytes };
    });
    client.#connection.onRequest(listFolderRequest, ({ uri }: FileParams) => {
      const folder = found(uri);
      return folder instanceof Uint8Array ? null : folder;
    });
    const params = {
      processId: process.pid,
      rootUri: folder ?? null,
      workspaceFolders: folders.length === 0 ? null : folders.map((uri) => ({ uri, name: 'folder' })),
      capabilities,
      initializationOptions: files ? { ...(options as object), answersForFiles: true } : options,
    };
    client.initialized = await client.request('initialize', initialize === undefined ? params : initialize);
    client.notify('initialized', {});
    return client;
  }

  get running(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null;
  }

  get pid(): number | undefined {
    return this.#child.pid;
  }

  request<R>(method: string, params?: unknown): Promise<R> {
    return this.#connection.sendRequest<R>(method, params as object);
  }

  /** A request that can be taken back. */
  begin<R>(method: string, params: unknown): { readonly answer: Promise<R>; cancel(): void } {
    const source = new CancellationTokenSource();
    const answer = this.#connection.sendRequest<R>(method, params as object, source.token);
    return { answer, cancel: () => source.cancel() };
  }

  /** A request that is taken back at once. */
  cancelled<R>(method: string, params: unknown): Promise<R> {
    const source = new CancellationTokenSource();
    const answer = this.#connection.sendRequest<R>(method, params as object, source.token);
    source.cancel();
    return answer;
  }

  notify(method: string, params: unknown): void {
    void this.#connection.sendNotification(method, params as object);
  }

  /** Past the protocol, byte by byte. */
  raw(text: string): void {
    this.#child.stdin.write(text);
  }

  open(uri: string, text: string, version = 1): void {
    this.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'hoof', version, text } });
  }

  change(uri: string, version: number, contentChanges: readonly TextDocumentContentChangeEvent[]): void {
    this.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  }

  close(uri: string): void {
    this.notify('textDocument/didClose', { textDocument: { uri } });
  }

  /** What the server says of a version, once it has said it; of several times the last. Of no version: when it is closed. */
  diagnostics(uri: string, version: number | null = 1): Promise<Diagnostic[]> {
    return this.until(
      () => this.#told.findLast((told) => told.uri === uri && (told.version ?? null) === version)?.diagnostics,
    );
  }

  /** What the server says of a document once it has spoken of it more than `times` times. */
  toldAgain(uri: string, times: number, seconds?: number): Promise<Diagnostic[]> {
    return this.until(() => {
      const all = this.#told.filter((told) => told.uri === uri);
      return all.length > times ? all.at(-1)?.diagnostics : undefined;
    }, seconds);
  }

  /** How often a document was spoken of. */
  timesTold(uri: string): number {
    return this.#told.filter((told) => told.uri === uri).length;
  }

  /** The diagnostics of a version once one of them is as asked for; it may take the server several rounds to know. */
  async diagnosticsWith(uri: string, fits: (all: Diagnostic[]) => boolean): Promise<Diagnostic[]> {
    return this.until(() => {
      const last = this.#told.findLast((told) => told.uri === uri)?.diagnostics;
      return last && fits(last) ? last : undefined;
    });
  }

  /** What is shown to the user, once that many messages are. */
  async messages(count: number): Promise<readonly string[]> {
    return this.until(() => (this.shown.length >= count ? this.shown : undefined));
  }

  /** Looks again after each message of the server. */
  async until<T>(look: () => T | undefined, seconds = 180): Promise<T> {
    const now = look();
    if (now !== undefined) return now;
    return new Promise((resolve, reject) => {
      const limit = setTimeout(() => {
        this.#waiting.delete(again);
        reject(
          new Error(
            `the server did not answer in ${seconds} s; it ${this.running ? 'runs' : 'has ended'} and logged: ${this.log.join('\n')}`,
          ),
        );
      }, seconds * 1000);
      const again = (): void => {
        const found = look();
        if (found === undefined) return;
        clearTimeout(limit);
        this.#waiting.delete(again);
        resolve(found);
      };
      this.#waiting.add(again);
    });
  }

  hover(uri: string, position: Position): Promise<Hover | null> {
    return this.request('textDocument/hover', { textDocument: { uri }, position });
  }

  async completion(uri: string, position: Position): Promise<CompletionItem[]> {
    return (await this.request<CompletionList>('textDocument/completion', { textDocument: { uri }, position })).items;
  }

  /** A request about a document, and perhaps a place or a range in it. */
  about<R>(method: string, uri: string, more: object = {}): Promise<R> {
    return this.request(`textDocument/${method}`, { textDocument: { uri }, ...more });
  }

  symbols(uri: string): Promise<DocumentSymbol[]> {
    return this.request('textDocument/documentSymbol', { textDocument: { uri } });
  }

  codeActions(uri: string, range: Range, context: CodeActionContext = { diagnostics: [] }): Promise<CodeAction[]> {
    return this.request('textDocument/codeAction', { textDocument: { uri }, range, context });
  }

  formatting(uri: string): Promise<TextEdit[]> {
    return this.request('textDocument/formatting', {
      textDocument: { uri },
      options: { tabSize: 2, insertSpaces: true },
    });
  }

  /** Ends the server as the protocol says; its exit status, null where it had to be killed. */
  async stop(): Promise<number | null> {
    // A server that hangs must not outlive its test.
    const kill = setTimeout(() => this.#child.kill('SIGKILL'), 60_000);
    if (this.running) {
      // Killed, it does not answer; that shows in the status.
      await this.request('shutdown').catch(() => undefined);
      this.notify('exit', undefined);
    }
    const status = await this.ended();
    clearTimeout(kill);
    return status;
  }

  /** Ends the process at once, whatever it does. */
  kill(): void {
    this.#child.kill('SIGKILL');
  }

  /** Waits for the server to end of itself; its exit status. */
  async ended(): Promise<number | null> {
    if (this.running) await once(this.#child, 'exit');
    this.#connection.dispose();
    return this.#child.exitCode;
  }
}
