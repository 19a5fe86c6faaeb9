import * as vscode from 'vscode';
import { counted, t } from '../../shared/language/words.ts';
import type { DueOfCase, DueResult } from '../../shared/protocol/due.ts';
import type { CaseServer } from './case-server.ts';
import { dayHere } from './day-here.ts';
import { Pace } from './pace.ts';

export const DUE = 'ungula.due';

/** Milliseconds between two questions: case files change many at a time. */
const GAP = 1000;

/** How often the day is looked at, milliseconds: a window may stay open over night, or sleep. */
const WATCH = 10 * 60_000;

/** One line of the list: a case, or what waits of it. */
export interface DueRow {
  readonly label: string;
  readonly about: string;
  readonly kind: 'case' | 'alarm' | DueOfCase['items'][number]['kind'];
  readonly uri: string;
  /** From 0. */
  readonly line: number;
  readonly rows: readonly DueRow[];
}

const icons: Readonly<Record<DueRow['kind'], string>> = {
  case: 'notebook',
  alarm: 'warning',
  visit: 'calendar',
  plan: 'checklist',
  film: 'device-camera',
};

/** The rows of a case: its alarms first. */
export function rowsOf({ uri, file, name, alarms, items }: DueOfCase): DueRow {
  const rows: readonly DueRow[] = [
    ...alarms.map(({ message, line }) => ({ label: message, about: '', kind: 'alarm' as const, uri, line, rows: [] })),
    ...items.map(({ says, kind, line }) => ({ label: says, about: '', kind, uri, line, rows: [] })),
  ];
  return { label: name ?? file, about: name === null ? '' : file, kind: 'case', uri, line: rows[0]?.line ?? 0, rows };
}

/** What stands over the list; that nothing waits is said only where everything was looked at. */
export function overList({ unread, isWhole, cases }: DueResult): string {
  if (unread > 0)
    return counted(
      unread,
      'One case file could not be read: what waits in it is not known.',
      '{0} case files could not be read: what waits in them is not known.',
    );
  if (!isWhole) return t('Not every case file was read: what waits in the others is not known.');
  return cases.length > 0 ? '' : t('Nothing waits today.');
}

/** What waits today in the case files of the open folders, as a list beside the files. It is there once there is a case file. */
export class DueList implements vscode.TreeDataProvider<DueRow>, vscode.Disposable {
  readonly #server: CaseServer;
  readonly #changed = new vscode.EventEmitter<void>();
  readonly onDidChangeTreeData = this.#changed.event;
  readonly #pace = new Pace(() => this.#update(), GAP);
  readonly #view: vscode.TreeView<DueRow>;
  readonly #rest: readonly vscode.Disposable[];
  #rows: readonly DueRow[] = [];
  #day = '';

  constructor(server: CaseServer) {
    this.#server = server;
    this.#view = vscode.window.createTreeView(DUE, { treeDataProvider: this });
    const again = (): void => this.#pace.ask();
    const watch = setInterval(() => {
      if (dayHere() !== this.#day) again();
    }, WATCH);
    this.#rest = [
      this.#view,
      this.#changed,
      { dispose: () => clearInterval(watch) },
      server.onRunning(again),
      server.onNewCases(again),
      server.onNewSettings(again),
      vscode.workspace.onDidSaveTextDocument(({ languageId }) => {
        if (languageId === 'hoof') again();
      }),
      vscode.window.onDidChangeWindowState(({ focused }) => {
        if (focused && dayHere() !== this.#day) again();
      }),
    ];
  }

  getTreeItem({ label, about, kind, uri, line, rows }: DueRow): vscode.TreeItem {
    const item = new vscode.TreeItem(
      label,
      rows.length > 0 ? vscode.TreeItemCollapsibleState.Expanded : vscode.TreeItemCollapsibleState.None,
    );
    item.description = about;
    // A sentence is longer than the list is wide.
    item.tooltip = label;
    const colour = kind === 'alarm' ? new vscode.ThemeColor('problemsErrorIcon.foreground') : undefined;
    item.iconPath = new vscode.ThemeIcon(icons[kind], colour);
    item.command = { command: 'ungula.showLine', title: t('Show the line'), arguments: [uri, line] };
    return item;
  }

  getChildren(row?: DueRow): readonly DueRow[] & DueRow[] {
    return [...(row ? row.rows : this.#rows)];
  }

  dispose(): void {
    this.#pace.stop();
    for (const one of this.#rest) one.dispose();
  }

  async #update(): Promise<void> {
    this.#day = dayHere();
    const due = await this.#server.due().catch(() => null);
    if (!due) {
      // What was listed before stays: an empty list would say that nothing waits.
      this.#view.message = t('What waits could not be worked out now.');
      return;
    }
    const { looked, cases } = due;
    this.#rows = cases.map(rowsOf);
    const alarms = cases.reduce((sum, one) => sum + one.alarms.length, 0);
    await vscode.commands.executeCommand('setContext', 'ungula.hasCases', looked > 0);
    this.#view.message = overList(due);
    this.#view.badge =
      alarms === 0
        ? undefined
        : { value: alarms, tooltip: counted(alarms, 'one alarm is open', '{0} alarms are open') };
    this.#changed.fire();
  }
}
