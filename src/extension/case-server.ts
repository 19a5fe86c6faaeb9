import * as vscode from 'vscode';
import { State, type BaseLanguageClient } from 'vscode-languageclient';
import { casesChanged, dueRequest, type DueResult } from '../../shared/protocol/due.ts';
import { footStateRequest, type FootStateParams, type FootStateResult } from '../../shared/protocol/foot-state.ts';
import { newFilmsRequest, type NewFilmsParams, type NewFilmsResult } from '../../shared/protocol/new-films.ts';
import { placeRequest, type PlaceParams, type PlaceResult } from '../../shared/protocol/placing.ts';
import { heelRequest, type HeelParams } from '../../shared/protocol/plans.ts';
import { pageGroundsRequest, type PageGrounds, type PageGroundsParams } from '../../shared/protocol/page-grounds.ts';
import { courseRequest, type CourseParams, type CourseResult } from '../../shared/protocol/course.ts';
import {
  readingsRequest,
  type ReadingsOf,
  type ReadingsParams,
  type ReadingsResult,
} from '../../shared/protocol/readings.ts';
import { sheetsChanged, sheetsRequest, type SheetsParams, type SheetsResult } from '../../shared/protocol/sheets.ts';
import type { FilmLook } from '../../shared/views/film-choice.ts';
import { answerForFiles } from './file-answers.ts';
import type { Platform } from './platform.ts';
import { snippetsFirst } from './snippets-first.ts';

/** The language server as the rest of the extension sees it. */
export class CaseServer implements vscode.Disposable {
  readonly #client: BaseLanguageClient;
  readonly #end: () => void;
  readonly #running = new vscode.EventEmitter<void>();
  /** Fires each time the server is ready to answer, after a restart too. */
  readonly onRunning = this.#running.event;
  readonly #settings = new vscode.EventEmitter<void>();
  /** Fires after the server has been given its settings. */
  readonly onNewSettings = this.#settings.event;

  readonly #sheets = new vscode.EventEmitter<void>();
  readonly #cases = new vscode.EventEmitter<void>();
  /** Fires when the case files of the open folders have changed. */
  readonly onNewCases = this.#cases.event;
  /** Fires when the sheets have changed although no text has. */
  readonly onNewSheets = this.#sheets.event;

  constructor(context: vscode.ExtensionContext, platform: Platform) {
    const { client, end } = platform.link(context, {
      documentSelector: [{ language: 'hoof' }],
      initializationOptions: {
        docs: `${vscode.Uri.joinPath(context.extensionUri, 'docs', 'codes').toString()}/`,
        answersForFiles: true,
        words: vscode.l10n.bundle,
        suggestAgain: 'editor.action.triggerSuggest',
        placeLandmark: 'ungula.placeLandmark',
        showLine: 'ungula.showLine',
        preview: 'ungula.showPreview',
        planTrim: 'ungula.planTrim',
        handOver: 'ungula.handOver',
      },
      middleware: {
        provideCompletionItem: async (document, position, context, token, next) =>
          snippetsFirst(await next(document, position, context, token)),
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
    this.#client = client;
    this.#end = end;
    answerForFiles(client);
    this.#client.onNotification(sheetsChanged, () => this.#sheets.fire());
    this.#client.onNotification(casesChanged, () => this.#cases.fire());
    this.#client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) this.#running.fire();
    });
  }

  async start(): Promise<void> {
    await this.#client.start();
  }

  async restart(): Promise<void> {
    if (this.#client.needsStop()) await this.#client.stop();
    await this.#client.start();
  }

  async sheets(uri: vscode.Uri, look: FilmLook): Promise<SheetsResult> {
    const params: SheetsParams = { textDocument: { uri: this.#client.code2ProtocolConverter.asUri(uri) }, look };
    return this.#client.sendRequest<SheetsResult>(sheetsRequest, params);
  }

  async place(uri: vscode.Uri, version: number, wish: Pick<PlaceParams, 'film' | 'placements'>): Promise<PlaceResult> {
    const textDocument = { uri: this.#client.code2ProtocolConverter.asUri(uri), version };
    return this.#client.sendRequest<PlaceResult>(placeRequest, { ...wish, textDocument } satisfies PlaceParams);
  }

  async heel(uri: vscode.Uri, version: number, wish: Omit<HeelParams, 'textDocument'>): Promise<PlaceResult> {
    const textDocument = { uri: this.#client.code2ProtocolConverter.asUri(uri), version };
    return this.#client.sendRequest<PlaceResult>(heelRequest, { ...wish, textDocument } satisfies HeelParams);
  }

  /** Null where the server does not know the document. */
  async newFilms(
    document: vscode.TextDocument,
    position: vscode.Position,
    rest: Pick<NewFilmsParams, 'pictures' | 'taken'>,
  ): Promise<{ range: vscode.Range; snippet: string; copies: NewFilmsResult['copies'] } | null> {
    const { code2ProtocolConverter: to, protocol2CodeConverter: from } = this.#client;
    const params: NewFilmsParams = {
      textDocument: { uri: to.asUri(document.uri) },
      position: to.asPosition(position),
      ...rest,
    };
    const answer = await this.#client.sendRequest<NewFilmsResult | null>(newFilmsRequest, params);
    return answer && { ...answer, range: from.asRange(answer.range) };
  }

  async course(uri: vscode.Uri): Promise<CourseResult> {
    const params: CourseParams = { textDocument: { uri: this.#client.code2ProtocolConverter.asUri(uri) } };
    return this.#client.sendRequest<CourseResult>(courseRequest, params);
  }

  /** Null where there is no foot there that is measured. */
  async footState({ uri }: vscode.TextDocument, position: vscode.Position): Promise<FootStateResult> {
    const { code2ProtocolConverter: to } = this.#client;
    const params: FootStateParams = { textDocument: { uri: to.asUri(uri) }, position: to.asPosition(position) };
    return this.#client.sendRequest<FootStateResult>(footStateRequest, params);
  }

  /** Null where the server could not work it out. */
  async due(): Promise<DueResult | null> {
    return this.#client.sendRequest<DueResult | null>(dueRequest);
  }

  async readings(uri: vscode.Uri, of: ReadingsOf): Promise<ReadingsResult> {
    const params: ReadingsParams = { textDocument: { uri: this.#client.code2ProtocolConverter.asUri(uri) }, of };
    return this.#client.sendRequest<ReadingsResult>(readingsRequest, params);
  }

  async pageGrounds(uri: vscode.Uri): Promise<PageGrounds> {
    const params: PageGroundsParams = { textDocument: { uri: this.#client.code2ProtocolConverter.asUri(uri) } };
    return this.#client.sendRequest<PageGrounds>(pageGroundsRequest, params);
  }

  async dispose(): Promise<void> {
    this.#running.dispose();
    this.#settings.dispose();
    this.#sheets.dispose();
    this.#cases.dispose();
    await this.#client.dispose();
    this.#end();
  }
}
