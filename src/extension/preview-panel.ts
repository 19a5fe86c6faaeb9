import * as vscode from 'vscode';
import type { CaseServer } from './case-server.ts';
import { filmKey, type FilmLook } from '../../shared/views/film-choice.ts';
import type { Wants, Way } from '../messages/course-messages.ts';
import {
  readPageMessage,
  readPageState,
  type HostMessage,
  type PageMessage,
  type Picture,
} from '../messages/messages.ts';
import { KeptLookups } from './kept-lookups.ts';
import { KeptMarker, type Kept } from './kept-marker.ts';
import { NewestAnswer } from './newest-answer.ts';
import { Pace } from './pace.ts';
import { PictureChecks } from './picture-checks.ts';
import { findPictures, pictureRoots, type PictureParts } from './pictures.ts';
import { PlacingHost } from './placing-host.ts';
import { previewHtml } from './preview-html.ts';
import { printFromPage } from './print-from-page.ts';
import { t } from '../../shared/language/words.ts';
import { saveFromPage } from './save-from-page.ts';
import { showLine } from './show-line.ts';

export const PREVIEW = 'ungula.preview';

/** Milliseconds between two looks at a text that is being typed. */
const GAP = 120;

/** What a page wants that has said nothing yet. */
const noWants: Wants = { uri: null, film: null, over: null, follows: true, course: false };

/** The one preview of the window. It shows the case file that was edited last. */
export class Preview implements vscode.WebviewPanelSerializer, vscode.Disposable {
  readonly #extension: vscode.Uri;
  readonly #server: CaseServer;
  readonly #pictures: PictureParts & { readonly kept: KeptLookups<Picture> };
  /** Where decoded pictures lie, from which the page may load. */
  readonly #decodedFolder: vscode.Uri;
  readonly #printFolder: vscode.Uri;
  readonly #newest = new NewestAnswer();
  readonly #placing: PlacingHost;
  readonly #marker: KeptMarker;
  readonly #pace = new Pace(() => this.#update(), GAP);
  readonly #rest: vscode.Disposable[] = [];
  #panel: vscode.WebviewPanel | null = null;
  #document: vscode.TextDocument | null = null;
  #line: number | null = null;
  /** Placing that is to be opened with the next sheets. */
  #placeAt: Extract<HostMessage, { type: 'place at' }> | null = null;
  /** Who has closed it does not want it again. */
  #wasOpen = false;
  /** The page has loaded, and hears what is posted. */
  #hears = false;
  #wants = noWants;
  /** Keys of the films that the page was sent last. */
  #sent: Pick<Wants, 'film' | 'over'> = { film: null, over: null };

  constructor(
    extension: vscode.Uri,
    server: CaseServer,
    {
      decodedFolder,
      printFolder,
      kept,
      ...parts
    }: Omit<PictureParts, 'checks'> & {
      readonly decodedFolder: vscode.Uri;
      readonly printFolder: vscode.Uri;
      readonly kept: Kept;
    },
  ) {
    this.#extension = extension;
    this.#pictures = { ...parts, checks: new PictureChecks(), kept: new KeptLookups() };
    this.#decodedFolder = decodedFolder;
    this.#printFolder = printFolder;
    this.#server = server;
    this.#placing = new PlacingHost(server);
    this.#marker = new KeptMarker(kept);
    const pictures = vscode.workspace.createFileSystemWatcher(
      '**/*.{png,jpg,jpeg,webp,gif,dcm,dicom,tif,tiff,PNG,JPG,JPEG,WEBP,GIF,DCM,DICOM,TIF,TIFF}',
    );
    const again = (): void => this.#pace.ask();
    const lookAgain = (): void => this.#lookAgain();
    this.#rest.push(
      pictures,
      pictures.onDidCreate(lookAgain),
      pictures.onDidChange(lookAgain),
      pictures.onDidDelete(lookAgain),
      // Some file systems tell of no change: whoever saves has a look at all.
      vscode.workspace.onDidSaveTextDocument((document) => {
        if (document === this.#document) lookAgain();
      }),
      server.onRunning(again),
      server.onNewSettings(again),
      server.onNewSheets(again),
      vscode.window.onDidChangeActiveTextEditor((editor) => {
        if (editor && isCase(editor.document)) this.#follow(editor.document);
        this.#openByItself();
      }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor.document === this.#document) this.#tellLine(textEditor.selection.active.line);
      }),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document === this.#document) again();
      }),
      // Closed and opened again, it is another document with the same address.
      vscode.workspace.onDidOpenTextDocument((document) => {
        if (isCase(document) && document.uri.toString() === this.#document?.uri.toString()) this.#follow(document);
      }),
    );
    this.#openByItself();
  }

  /** Beside the first case of the window, where that is wanted. */
  #openByItself(): void {
    const document = vscode.window.activeTextEditor?.document;
    if (this.#wasOpen || this.#panel || !document || !isCase(document)) return;
    if (vscode.workspace.getConfiguration('ungula').get('preview.opensWithCase') === true) void this.open(document.uri);
  }

  /** The case that it shows. */
  get document(): vscode.TextDocument | null {
    return this.#panel ? this.#document : null;
  }

  /** The column that it stands in, where that is not the text's own. */
  get column(): vscode.ViewColumn | undefined {
    const text = vscode.window.visibleTextEditors.find((editor) => isCase(editor.document))?.viewColumn;
    const own = this.#panel?.viewColumn;
    return own === text ? undefined : own;
  }

  /** `file` is what the button or the explorer stands for; without it, the editor that is active. */
  async open(file?: vscode.Uri): Promise<void> {
    const active = vscode.window.activeTextEditor?.document;
    const named = file instanceof vscode.Uri ? await vscode.workspace.openTextDocument(file) : active;
    if (named && isCase(named)) this.#follow(named);
    if (this.#panel) {
      const text = vscode.window.activeTextEditor?.viewColumn;
      // To the side of the text, also where it was moved into the text's own group and would cover it.
      const covers = text !== undefined && this.#panel.viewColumn === text;
      this.#panel.reveal(covers ? vscode.ViewColumn.Beside : undefined, true);
      return;
    }
    const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    this.#adopt(vscode.window.createWebviewPanel(PREVIEW, t('Preview'), column, this.#options()));
  }

  /**
   * Opens placing on the film whose header stands on `line`, counted from 0, at a landmark, or where the walk goes on. Arguments of a
   * command may be anything.
   */
  async placeAt(uri: unknown, line: unknown, landmark: unknown): Promise<void> {
    if (typeof uri !== 'string' || typeof line !== 'number' || typeof landmark !== 'string') return;
    const file = vscode.Uri.parse(uri, true);
    this.#placeAt = { type: 'place at', uri: file.toString(), line, landmark };
    await this.open(file);
    this.#newest.follow(file.toString());
    this.#pace.ask();
  }

  /** The preview of a line of a case, counted from 0. Arguments of a command may be anything. */
  async showAt(uri: unknown, line: unknown): Promise<void> {
    await showLine(uri, line);
    await this.open();
  }

  /** The drawing that the page shows goes along. */
  take(way: Way): void {
    this.#post({ type: 'take', way });
  }

  /** After the window was loaded again, with what the page had kept. */
  async deserializeWebviewPanel(panel: vscode.WebviewPanel, kept: unknown): Promise<void> {
    const active = vscode.window.activeTextEditor?.document;
    const uri = readPageState(kept)?.uri ?? null;
    if (active && isCase(active)) this.#follow(active);
    else if (uri !== null) {
      try {
        this.#follow(await vscode.workspace.openTextDocument(vscode.Uri.parse(uri, true)));
      } catch {
        // The file has gone since; the page says what to open.
      }
    }
    this.#panel?.dispose();
    panel.webview.options = this.#options();
    this.#adopt(panel);
  }

  dispose(): void {
    this.#pace.stop();
    this.#panel?.dispose();
    for (const one of this.#rest) one.dispose();
  }

  /** A picture may be another than it was. */
  #lookAgain(): void {
    this.#pictures.kept.forget();
    this.#pace.ask();
  }

  #adopt(panel: vscode.WebviewPanel): void {
    const { webview } = panel;
    const file = (...path: string[]): vscode.Uri => vscode.Uri.joinPath(this.#extension, ...path);
    this.#panel = panel;
    this.#wasOpen = true;
    this.#hears = false;
    this.#pictures.kept.forget();
    this.#title();
    panel.iconPath = { light: file('icons', 'preview-light.svg'), dark: file('icons', 'preview-dark.svg') };
    panel.onDidDispose(() => {
      if (this.#panel === panel) this.#panel = null;
    });
    webview.onDidReceiveMessage((data: unknown) => {
      const message = readPageMessage(data);
      if (message) void this.#heard(message);
    });
    webview.html = previewHtml({
      script: webview.asWebviewUri(file('dist', 'preview.js')).toString(),
      style: webview.asWebviewUri(file('dist', 'preview.css')).toString(),
      cspSource: webview.cspSource,
      nonce: crypto.randomUUID().replaceAll('-', ''),
      words: vscode.l10n.bundle,
      language: vscode.env.language,
    });
  }

  #options(): vscode.WebviewOptions {
    const own = vscode.Uri.joinPath(this.#extension, 'dist');
    return {
      enableScripts: true,
      localResourceRoots: [own, this.#decodedFolder, ...(this.#document ? pictureRoots(this.#document.uri) : [])],
    };
  }

  #title(): void {
    if (this.#panel) this.#panel.title = this.#document ? t('Preview {0}', nameOf(this.#document.uri)) : t('Preview');
  }

  #follow(document: vscode.TextDocument): void {
    if (document === this.#document) return;
    this.#document = document;
    this.#line = null;
    this.#newest.follow(document.uri.toString());
    this.#title();
    if (this.#panel) {
      // Only where they differ: the page is loaded anew when they are set.
      const options = this.#options();
      if (roots(options) !== roots(this.#panel.webview.options)) this.#panel.webview.options = options;
    }
    this.#pace.ask();
  }

  async #heard(message: PageMessage): Promise<void> {
    switch (message.type) {
      case 'reveal':
        return this.#reveal(message);
      case 'place':
        return this.#placing.place(message, this.#document, (told) => this.#post(told));
      case 'heel':
        return this.#placing.heel(message, this.#document, (says) => this.#notWritten(says));
      case 'history':
        return this.#placing.history(message, this.#document, this.#panel);
      case 'wants':
        return this.#wanted(message.wants);
      case 'marker':
        return this.#marker.write(message.mm);
      case 'save':
        return this.#post({ type: 'said', says: await this.#save(message) });
      case 'begin':
        return this.#begin(message.what);
    }
    this.#hears = true;
    const { mm } = this.#marker;
    if (mm !== null) this.#post({ type: 'marker', mm });
    // A page that was hidden begins with nothing.
    this.#wants = message.wants;
    this.#line = null;
    this.#pictures.kept.forget();
    this.#newest.follow(this.#document?.uri.toString() ?? null);
    this.#pace.ask();
  }

  async #begin(what: 'new case' | 'add visit'): Promise<void> {
    // A visit goes into the text that is active, and it is the page that is.
    if (what === 'add visit' && this.#document)
      await showLine(this.#document.uri.toString(), this.#document.lineCount - 1);
    await vscode.commands.executeCommand(what === 'new case' ? 'ungula.newCase' : 'ungula.addVisit');
  }

  #save({ kind, name, content }: Extract<PageMessage, { type: 'save' }>): Promise<string> {
    return kind === 'print'
      ? printFromPage(name, content, this.#printFolder)
      : saveFromPage({ kind, name, content }, this.#document?.uri ?? null);
  }

  /** A film that the page does not have comes without the pause that is kept while somebody types. */
  #wanted(wants: Wants): void {
    const before = this.#wants;
    this.#wants = wants;
    const isOther = (key: string | null, sent: string | null): boolean => key !== null && key !== sent;
    const isKeyOther = JSON.stringify(wants.shown) !== JSON.stringify(before.shown);
    const isMore = isKeyOther || isOther(wants.film, this.#sent.film) || isOther(wants.over, this.#sent.over);
    if (isMore || (wants.course && !before.course) || wants.agreement !== before.agreement) this.#pace.hurry();
  }

  /** What the page looks at in a case. */
  #look(document: vscode.TextDocument, uri: string): FilmLook {
    const wants = this.#wants.uri === uri ? this.#wants : noWants;
    const { film, over, shown } = wants;
    const keys = shown && { shown };
    if (this.#placeAt?.uri === uri) return { film, over, ...keys, line: this.#placeAt.line, moved: true };
    const line = lineIn(document);
    return { film, over, ...keys, line, moved: wants.follows && line !== null && line !== this.#line };
  }

  /** The slider goes back to what the text says, and the reason stands above it. */
  async #notWritten(says: string): Promise<void> {
    this.#newest.follow(this.#document?.uri.toString() ?? null);
    await this.#update();
    this.#post({ type: 'trouble', says });
  }

  async #update(): Promise<void> {
    const panel = this.#panel;
    if (!panel?.visible) return;
    if (this.#document?.isClosed) await this.#openAgain(this.#document.uri);
    const document = this.#document;
    if (!document)
      return this.#post({ type: 'nothing', says: t('Open a case file (.hoof): its films are shown here.') });
    const uri = document.uri.toString();
    try {
      const { sheets: _all, ...told } = await this.#server.sheets(document.uri, this.#look(document, uri));
      if (!this.#newest.accepts(uri, told.version)) return;
      const pictures = await findPictures(told.films, document.uri, panel.webview, this.#pictures);
      if (this.#document !== document || this.#panel !== panel) return;
      if (this.#hears && this.#placeAt?.uri === uri) {
        this.#post(this.#placeAt);
        this.#placeAt = null;
      }
      this.#line = lineIn(document);
      this.#sent = { film: told.sheet && filmKey(told.sheet), over: told.over && filmKey(told.over) };
      const fileName = nameOf(document.uri);
      this.#post({ ...told, type: 'sheets', uri, fileName, pictures, cursor: this.#line });
      const { agreement } = this.#wants;
      if (agreement !== undefined) {
        const { version: _version, ...read } = await this.#server.readings(document.uri, agreement);
        if (this.#document === document && this.#panel === panel) this.#post({ type: 'readings', uri, ...read });
      }
      // Of a case without a film the course is what there is to see.
      if (!this.#wants.course && (told.films.length > 0 || told.tapes.length === 0)) return;
      const { feet } = await this.#server.course(document.uri);
      if (this.#document === document && this.#panel === panel) this.#post({ type: 'course', uri, feet });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.#post({
        type: 'trouble',
        says: t(
          'The numbers may be old: the language server gave no answer ({0}). Run “Ungula: Restart language server”.',
          why,
        ),
      });
    }
  }

  /** The server knows open texts only; the editor lets go of one that no tab shows. */
  async #openAgain(uri: vscode.Uri): Promise<void> {
    try {
      this.#follow(await vscode.workspace.openTextDocument(uri));
    } catch {
      this.#document = null;
      this.#newest.follow(null);
    }
  }

  #tellLine(line: number): void {
    if (line === this.#line || !this.#document) return;
    this.#line = line;
    this.#post({ type: 'cursor', uri: this.#document.uri.toString(), line });
  }

  #post(message: HostMessage): void {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a webview, not a window
    void this.#panel?.webview.postMessage(message);
  }

  async #reveal({ uri, line, how }: Extract<PageMessage, { type: 'reveal' }>): Promise<void> {
    const document = this.#document;
    // The page moves about in the case it shows, and opens nothing else.
    if (!document || document.uri.toString() !== uri || line >= document.lineCount) return;
    const at = new vscode.Position(line, document.lineAt(line).firstNonWhitespaceCharacterIndex);
    const selection = new vscode.Selection(at, at);
    const editor = editorOf(document);
    if (how === 'go') {
      const viewColumn =
        editor?.viewColumn ??
        (this.#panel?.viewColumn === vscode.ViewColumn.One ? vscode.ViewColumn.Beside : vscode.ViewColumn.One);
      await vscode.window.showTextDocument(document.uri, { viewColumn, selection });
    } else if (editor) {
      editor.selection = selection;
      editor.revealRange(selection, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
    }
  }
}

function isCase(document: vscode.TextDocument): boolean {
  return document.languageId === 'hoof';
}

function editorOf(document: vscode.TextDocument): vscode.TextEditor | undefined {
  const active = vscode.window.activeTextEditor;
  return active?.document === document
    ? active
    : vscode.window.visibleTextEditors.find((editor) => editor.document === document);
}

function lineIn(document: vscode.TextDocument): number | null {
  return editorOf(document)?.selection.active.line ?? null;
}

function nameOf(uri: vscode.Uri): string {
  return uri.path.slice(uri.path.lastIndexOf('/') + 1);
}

function roots({ localResourceRoots = [] }: vscode.WebviewOptions): string {
  return localResourceRoots.map(String).join('\n');
}
