import * as vscode from 'vscode';
import { LanguageClient, State, TransportKind, type ServerOptions } from 'vscode-languageclient/node';
import { courseRequest, type CourseParams, type CourseResult } from '../../shared/protocol/course.ts';
import { sheetsChanged, sheetsRequest, type SheetsParams, type SheetsResult } from '../../shared/protocol/sheets.ts';

/** The language server as the rest of the extension sees it. */
export class CaseServer implements vscode.Disposable {
  readonly #client: LanguageClient;
  readonly #running = new vscode.EventEmitter<void>();
  /** Told each time that the server is ready to answer, after a restart too. */
  readonly onRunning = this.#running.event;
  readonly #settings = new vscode.EventEmitter<void>();
  /** Told after the server has been given its settings. */
  readonly onNewSettings = this.#settings.event;

  readonly #sheets = new vscode.EventEmitter<void>();
  /** Told when the sheets are others although no text changed. */
  readonly onNewSheets = this.#sheets.event;

  constructor(context: vscode.ExtensionContext) {
    const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.cjs').fsPath;
    const options: ServerOptions = {
      run: { module, transport: TransportKind.ipc },
      debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6021'] } },
    };
    this.#client = new LanguageClient('ungula', 'Ungula', options, {
      documentSelector: [{ language: 'hoof' }],
      initializationOptions: { docs: `${vscode.Uri.joinPath(context.extensionUri, 'docs', 'codes').toString()}/` },
      // A picture may state its scale, and may be replaced by a better one.
      synchronize: { fileEvents: vscode.workspace.createFileSystemWatcher('**/*.{dcm,DCM,dicom,DICOM}') },
      middleware: {
        workspace: {
          configuration: async (params, token, next) => {
            const answer = await next(params, token);
            // After the answer has gone out, so that what is asked next is counted with it.
            setTimeout(() => this.#settings.fire(), 0);
            return answer;
          },
        },
      },
    });
    this.#client.onNotification(sheetsChanged, () => this.#sheets.fire());
    this.#client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) this.#running.fire();
    });
  }

  async start(): Promise<void> {
    await this.#client.start();
  }

  async restart(): Promise<void> {
    if (this.#client.needsStop()) await this.#client.restart();
    else await this.#client.start();
  }

  async sheets(uri: vscode.Uri): Promise<SheetsResult> {
    const params: SheetsParams = { textDocument: { uri: this.#client.code2ProtocolConverter.asUri(uri) } };
    return this.#client.sendRequest<SheetsResult>(sheetsRequest, params);
  }

  async course(uri: vscode.Uri): Promise<CourseResult> {
    const params: CourseParams = { textDocument: { uri: this.#client.code2ProtocolConverter.asUri(uri) } };
    return this.#client.sendRequest<CourseResult>(courseRequest, params);
  }

  async dispose(): Promise<void> {
    this.#running.dispose();
    this.#settings.dispose();
    this.#sheets.dispose();
    await this.#client.dispose();
  }
}
