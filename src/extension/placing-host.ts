import * as vscode from 'vscode';
import type { CaseServer } from './case-server.ts';
import type { PlaceResult } from '../../shared/protocol/placing.ts';
import { t } from '../../shared/language/words.ts';
import type { PageMessage } from '../messages/messages.ts';
import { placeInText, type PlacedResult } from './place-in-text.ts';
import type { HistoryMessage, PlacedMessage, PlaceMessage } from '../messages/placing-messages.ts';

const notShown = (): string =>
  t('Another case file is shown now, so nothing was written. Go back to the film and try it again.');

/** Writes into the case file what is placed on the page, one undo step for each wish, one wish after the other. */
export class PlacingHost {
  readonly #server: CaseServer;
  #last: Promise<void> = Promise.resolve();

  constructor(server: CaseServer) {
    this.#server = server;
  }

  place(
    { uri, id, film, placements }: PlaceMessage,
    document: vscode.TextDocument | null,
    tell: (told: PlacedMessage) => void,
  ): Promise<void> {
    return this.#inTurn(async () => {
      const outcome = await this.#write(uri, document, (open, version) =>
        this.#server.place(open, version, { film, placements }),
      );
      if (outcome.written) tell({ type: 'placed', id, uri, version: outcome.version, says: null });
      else tell({ type: 'placed', id, uri, version: null, says: outcome.says });
    });
  }

  /** A heel cut from the slider; where it cannot be written, `refused` is told why. */
  heel(
    { uri, line, part, mm }: Extract<PageMessage, { type: 'heel' }>,
    document: vscode.TextDocument | null,
    refused: (says: string) => Promise<void>,
  ): Promise<void> {
    return this.#inTurn(async () => {
      const outcome = await this.#write(uri, document, (open, version) =>
        this.#server.heel(open, version, { line, mm, ...(part && { part }) }),
      );
      if (!outcome.written) await refused(outcome.says);
    });
  }

  async #write(
    uri: string,
    document: vscode.TextDocument | null,
    ask: (open: vscode.Uri, version: number) => Promise<PlaceResult>,
  ): Promise<PlacedResult> {
    // The page writes into the case it shows, and into nothing else.
    if (document?.uri.toString() !== uri) return { written: false, says: notShown() };
    try {
      // The editor lets go of a text that no tab shows.
      const open = document.isClosed ? await vscode.workspace.openTextDocument(document.uri) : document;
      return await placeInText({
        version: () => open.version,
        ask: (version) => ask(open.uri, version),
        apply: async (edits) => vscode.workspace.applyEdit(workspaceEdit(open.uri, edits)),
      });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      const says = t(
        'Nothing was written: the language server gave no answer ({0}). Run “Ungula: Restart language server”, then try it again.',
        why,
      );
      return { written: false, says };
    }
  }

  /** The editor's own history knows one editor, the one with the focus: it gets it for the one step, and the page has it back. */
  history(
    { uri, how }: HistoryMessage,
    document: vscode.TextDocument | null,
    panel: vscode.WebviewPanel | null,
  ): Promise<void> {
    return this.#inTurn(async () => {
      if (!document || !panel || document.uri.toString() !== uri) return;
      const shown = vscode.window.visibleTextEditors.find((editor) => editor.document === document);
      const beside = panel.viewColumn === vscode.ViewColumn.One ? vscode.ViewColumn.Beside : vscode.ViewColumn.One;
      await vscode.window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? beside, preserveFocus: false });
      await untilActive(panel, false);
      await vscode.commands.executeCommand(how);
      panel.reveal(undefined, false);
      // A next step that came before would find the page in front, and be the page's own.
      await untilActive(panel, true);
    });
  }

  #inTurn(work: () => Promise<void>): Promise<void> {
    const next = this.#last.then(work);
    this.#last = next.catch(console.error);
    return this.#last;
  }
}

/** Milliseconds after which an editor that does not tell who has the focus is not waited for. */
const PATIENCE = 400;

/** Waits until the page has the focus, or has it no more. */
function untilActive(panel: vscode.WebviewPanel, wanted: boolean): Promise<void> {
  if (panel.active === wanted) return Promise.resolve();
  return new Promise((resolve) => {
    const done = (): void => {
      clearTimeout(timer);
      listening.dispose();
      resolve();
    };
    const timer = setTimeout(done, PATIENCE);
    const listening = panel.onDidChangeViewState(() => {
      if (panel.active === wanted) done();
    });
  });
}

function workspaceEdit(
  uri: vscode.Uri,
  edits: Parameters<Parameters<typeof placeInText>[0]['apply']>[0],
): vscode.WorkspaceEdit {
  const edit = new vscode.WorkspaceEdit();
  const at = ({ line, character }: (typeof edits)[number]['range']['start']): vscode.Position =>
    new vscode.Position(line, character);
  edit.set(
    uri,
    edits.map(({ range, newText }) => new vscode.TextEdit(new vscode.Range(at(range.start), at(range.end)), newText)),
  );
  return edit;
}
