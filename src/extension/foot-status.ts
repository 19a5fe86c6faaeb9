import * as vscode from 'vscode';
import { t } from '../../shared/language/words.ts';
import type { CaseServer } from './case-server.ts';
import { Pace } from './pace.ts';

/** Milliseconds between two questions while the cursor runs. */
const GAP = 250;

/** In the status bar how the foot at the cursor stands, in five words; pressing it shows that film in the preview. */
export class FootStatus implements vscode.Disposable {
  readonly #server: CaseServer;
  readonly #item = vscode.window.createStatusBarItem('ungula.foot', vscode.StatusBarAlignment.Left, 0);
  readonly #pace = new Pace(() => this.#update(), GAP);
  readonly #rest: readonly vscode.Disposable[];
  /** What was looked at last. */
  #of: vscode.TextDocument | null = null;

  constructor(server: CaseServer) {
    this.#server = server;
    this.#item.name = t('Hoof case: the foot at the cursor');
    const again = (): void => this.#pace.ask();
    this.#rest = [
      server.onRunning(again),
      server.onNewSheets(again),
      vscode.window.onDidChangeActiveTextEditor(again),
      vscode.window.onDidChangeTextEditorSelection(again),
      vscode.workspace.onDidCloseTextDocument(again),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document === vscode.window.activeTextEditor?.document) again();
      }),
    ];
  }

  dispose(): void {
    this.#pace.stop();
    this.#item.dispose();
    for (const one of this.#rest) one.dispose();
  }

  async #update(): Promise<void> {
    const editor = vscode.window.activeTextEditor;
    // In the preview no text is active: what was said last still holds, for as long as its text is open.
    if (!editor) {
      if (this.#of?.isClosed) this.#item.hide();
      return;
    }
    const { document, selection } = editor;
    this.#of = document;
    const state =
      document.languageId === 'hoof'
        ? await this.#server.footState(document, selection.active).catch(() => null)
        : null;
    if (!state) return this.#item.hide();
    this.#item.text = state.isAlarm ? `$(warning) ${state.says}` : state.says;
    this.#item.tooltip = state.about.join('\n');
    this.#item.accessibilityInformation = { label: [state.says, ...state.about].join('. ') };
    this.#item.backgroundColor = state.isAlarm ? new vscode.ThemeColor('statusBarItem.errorBackground') : undefined;
    this.#item.command = {
      command: 'ungula.showPreview',
      title: t('Show in the preview'),
      arguments: [document.uri.toString(), state.line],
    };
    this.#item.show();
  }
}
