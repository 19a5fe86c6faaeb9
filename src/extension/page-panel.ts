import * as vscode from 'vscode';
import { t } from '../../shared/language/words.ts';
import type { UsePicture } from '../../shared/picture/picture-files.ts';
import { picturePlace } from '../../shared/picture/picture-place.ts';
import { refusalWords } from '../../shared/picture/refusal-words.ts';
import type { PageGrounds } from '../../shared/protocol/page-grounds.ts';
import type { ReportPicture } from '../../shared/report/page.ts';
import { pageText } from '../../shared/report/pages/page-text.ts';
import type { PageReader } from '../../shared/report/pages/shell.ts';
import { base64Of } from './base64.ts';
import type { CaseServer } from './case-server.ts';
import type { PageMaker } from './page-maker.ts';
import { dayHere } from './day-here.ts';
import { nameOf } from './picture-for-case.ts';
import { pictureRoots } from './pictures.ts';
import type { Decoder } from './platform.ts';
import { writeWhole } from './save-from-page.ts';

export const PAGE = 'ungula.page';

interface HandedPageParts {
  readonly server: CaseServer;
  readonly maker: PageMaker;
  readonly files: UsePicture<vscode.Uri>;
  readonly decoder: Decoder;
  /** Where a page lies that a browser is to print. */
  readonly folder: vscode.Uri;
  /** The case that the preview shows, where the command is given there. */
  readonly previewed: () => vscode.TextDocument | null;
  /** Where a page stands: a third column would leave the text no room, so in the preview's where there is one. */
  readonly besideText: () => vscode.ViewColumn;
}

/** Milliseconds after the last key until the page is made anew. */
const PAUSE = 700;

/** What a page is called in a menu and as a file. */
const choices = (): readonly (vscode.QuickPickItem & { readonly reader: PageReader })[] => [
  { reader: 'owner', label: t('For the owner'), description: t('two sides in plain words') },
  { reader: 'vet', label: t('For the vet'), description: t('one side to read, the rest behind it') },
  { reader: 'yard', label: t('For the yard'), description: t('the foot in true size, with the line to draw') },
];

/** A page of a case beside its text, as it would be handed over. It runs nothing; the text may be unsaved. */
export class HandedPages implements vscode.Disposable {
  readonly #parts: HandedPageParts;
  readonly #rest: vscode.Disposable[];
  #panel: vscode.WebviewPanel | null = null;
  #shown: { readonly document: vscode.TextDocument; readonly reader: PageReader } | null = null;
  /** As it was made last; empty where it could not be. */
  #html = '';
  /** Its day, YYYY-MM-DD. */
  #date = '';
  #timer: ReturnType<typeof setTimeout> | undefined;
  #round = 0;

  constructor(parts: HandedPageParts) {
    this.#parts = parts;
    this.#rest = [
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document !== this.#shown?.document || !this.#panel) return;
        clearTimeout(this.#timer);
        this.#timer = setTimeout(() => void this.#make(), PAUSE);
      }),
    ];
  }

  /** `file` is what the button stands for; without it the case that is edited, or that the preview shows. */
  async open(file?: vscode.Uri): Promise<void> {
    const document = await this.#documentFor(file);
    if (!document) {
      void vscode.window.showInformationMessage(t('Open a case file (.hoof) first: a page is made of it.'));
      return;
    }
    const chosen = await vscode.window.showQuickPick(choices(), { placeHolder: t('Whom is the page for?') });
    if (!chosen) return;
    this.#shown = { document, reader: chosen.reader };
    if (!this.#panel) {
      const panel = vscode.window.createWebviewPanel(
        PAGE,
        t('Page'),
        // Its buttons show where it has the focus.
        { viewColumn: this.#parts.besideText(), preserveFocus: false },
        // Nothing runs in it, and it loads nothing.
        { enableScripts: false, enableCommandUris: false, localResourceRoots: [] },
      );
      panel.onDidDispose(() => {
        if (this.#panel !== panel) return;
        this.#panel = null;
        this.#shown = null;
        this.#parts.maker.end();
      });
      this.#panel = panel;
    } else this.#panel.reveal(undefined, false);
    this.#panel.title = chosen.label;
    await this.#make();
  }

  /** As PDF or HTML, as its name ends. */
  async save(): Promise<void> {
    if (!this.#shown || this.#html === '') return;
    const { document } = this.#shown;
    const { makesPdf } = this.#parts.maker;
    const beside =
      document.uri.scheme === 'untitled'
        ? null
        : vscode.Uri.joinPath(document.uri, '..', this.#fileName(makesPdf ? 'pdf' : 'html'));
    const chosen = await vscode.window.showSaveDialog({
      filters: { ...(makesPdf && { [t('Sheets to print (PDF)')]: ['pdf'] }), [t('Page (HTML)')]: ['html'] },
      title: t('Save the page'),
      ...(beside && { defaultUri: beside }),
    });
    if (!chosen) return;
    const saved = t('Saved as {0}.', nameOf(chosen));
    if (/\.pdf$/i.test(chosen.path)) await this.#savedAsPdf(chosen, saved);
    else await this.#written(chosen, this.#bytes(), saved);
  }

  async #savedAsPdf(file: vscode.Uri, saved: string): Promise<void> {
    const made = await this.#parts.maker.pdf({ html: this.#html, date: this.#date, paper: 'a4' });
    if ('problem' in made) {
      void vscode.window.showErrorMessage(made.problem);
      return;
    }
    const isWritten = await this.#written(file, made.bytes, saved);
    if (isWritten && made.notShown.length > 0) void vscode.window.showWarningMessage(made.notShown.join(' '));
  }

  #bytes(): Uint8Array {
    return new TextEncoder().encode(this.#html);
  }

  /** In the browser of the machine, whose own print keeps the true size: a pane of the editor cannot print. */
  async print(): Promise<void> {
    if (!this.#shown || this.#html === '') return;
    // The browser of this person cannot reach what the editor writes there.
    if (vscode.env.uiKind === vscode.UIKind.Web || vscode.env.remoteName !== undefined) {
      void vscode.window.showInformationMessage(
        t('From here no page can be opened for print. Save the page, and print that from your browser.'),
      );
      return;
    }
    const file = vscode.Uri.joinPath(this.#parts.folder, this.#fileName('html'));
    try {
      await vscode.workspace.fs.createDirectory(this.#parts.folder);
    } catch {
      // It is there already, or cannot be made, which writing tells.
    }
    const isWritten = await this.#written(file, this.#bytes(), '');
    if (isWritten && !(await vscode.env.openExternal(file)))
      void vscode.window.showWarningMessage(t('No browser opened the page. Save it, and print it from there.'));
  }

  /** Its words, for a message or a letter; the drawings stay. */
  async copy(): Promise<void> {
    if (this.#html === '') return;
    await vscode.env.clipboard.writeText(pageText(this.#html));
    void vscode.window.setStatusBarMessage(t('The words of the page are copied.'), 3000);
  }

  dispose(): void {
    clearTimeout(this.#timer);
    this.#panel?.dispose();
    this.#parts.maker.end();
    for (const one of this.#rest) one.dispose();
  }

  async #documentFor(file?: vscode.Uri): Promise<vscode.TextDocument | null> {
    if (file instanceof vscode.Uri && file.path.endsWith('.hoof')) return vscode.workspace.openTextDocument(file);
    const active = vscode.window.activeTextEditor?.document;
    return active?.languageId === 'hoof' ? active : this.#parts.previewed();
  }

  async #make(): Promise<void> {
    const shown = this.#shown;
    if (!shown) return;
    this.#round += 1;
    const round = this.#round;
    const date = dayHere();
    const html = await this.#pageOf(shown, date);
    // Another key, another reader: the newest counts.
    if (round !== this.#round || !this.#panel) return;
    this.#html = typeof html === 'string' ? html : '';
    this.#date = date;
    if (typeof html === 'string') this.#panel.webview.html = html;
    else void vscode.window.showErrorMessage(html.problem);
  }

  async #pageOf(
    { document, reader }: { readonly document: vscode.TextDocument; readonly reader: PageReader },
    date: string,
  ): Promise<string | { readonly problem: string }> {
    const { maker } = this.#parts;
    let grounds: PageGrounds;
    try {
      grounds = await this.#parts.server.pageGrounds(document.uri);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return { problem: t('The language server gave no answer ({0}). Run “Ungula: Restart language server”.', why) };
    }
    const about = { grounds, reader, date, names: false };
    const asked = await maker.make({ ...about, pictures: null });
    if (!('wants' in asked)) return 'html' in asked ? asked.html : asked;
    const pictures = await Promise.all(
      asked.wants.map(async (path) => [path, await this.#picture(path, document.uri)] as const),
    );
    const made = await maker.make({ ...about, pictures });
    return 'html' in made ? made.html : 'problem' in made ? made : { problem: t('No page was made.') };
  }

  /** The picture itself, without what its file says beside it. */
  async #picture(path: string, caseFile: vscode.Uri): Promise<ReportPicture> {
    if (caseFile.scheme === 'untitled') return { lack: refusalWords('unsaved case', path) };
    const roots = pictureRoots(caseFile);
    const place = picturePlace(
      path,
      vscode.Uri.joinPath(caseFile, '..').path,
      roots.map((root) => root.path),
    );
    if ('refused' in place) return { lack: refusalWords(place.refused, path) };
    try {
      const looked = await this.#parts.files(caseFile.with({ path: place.path }), roots, async (picture) => {
        const made = await this.#parts.decoder.showable(await picture.read(0, picture.size));
        if ('problem' in made) return { lack: t('The picture {0} cannot be shown: {1}', path, made.problem) };
        const { mime, width, height, bytes } = made;
        return { href: `data:${mime};base64,${base64Of(bytes)}`, width, height };
      });
      return 'found' in looked ? looked.found : { lack: refusalWords(looked.refused, path) };
    } catch {
      return { lack: refusalWords('unreadable', path) };
    }
  }

  async #written(file: vscode.Uri, bytes: Uint8Array, says: string): Promise<boolean> {
    try {
      await writeWhole(file, bytes);
      if (says !== '') void vscode.window.setStatusBarMessage(says, 3000);
      return true;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      void vscode.window.showErrorMessage(
        t('It could not be saved ({0}). Choose another folder, one that you may write to.', why),
      );
      return false;
    }
  }

  /** `juniper-owner.html` */
  #fileName(ending: 'html' | 'pdf'): string {
    if (!this.#shown) return `page.${ending}`;
    const { document, reader } = this.#shown;
    return `${nameOf(document.uri).replace(/\.hoof$/, '')}-${reader}.${ending}`;
  }
}
