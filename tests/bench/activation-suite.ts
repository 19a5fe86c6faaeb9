import * as vscode from 'vscode';

/** Milliseconds, by the clock of the extension host. */
export interface Began {
  /** Until `activate` has come to its end. */
  readonly active: number;
  /** From the same start until the first findings of a file that is opened right after. */
  readonly findings: number;
}

/** What the extension host calls: two extensions with a language server each, in the order that the build was told. */
export async function run(): Promise<void> {
  const measured: Record<string, Began> = {};
  try {
    for (const [id, name] of UNGULA_BENCH_ORDER) measured[id] = await begin(id, name);
  } catch (error) {
    console.log(`[suite]  ${error instanceof Error ? error.message : String(error)}`);
    throw error;
  }
  console.log(`[suite-result]${JSON.stringify(measured)}`);
}

declare const UNGULA_BENCH_ORDER: readonly (readonly [string, string])[];

async function begin(id: string, name: string): Promise<Began> {
  const extension = vscode.extensions.getExtension(id);
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (!extension || !folder) throw new Error(`no extension ${id}, or no folder`);
  if (extension.isActive) throw new Error(`${id} runs already`);
  const uri = vscode.Uri.joinPath(folder.uri, name);
  const told = new Promise<void>((resolve) => {
    vscode.languages.onDidChangeDiagnostics(({ uris }) => {
      if (uris.some((one) => one.toString() === uri.toString()) && vscode.languages.getDiagnostics(uri).length > 0)
        resolve();
    });
  });
  const start = performance.now();
  await extension.activate();
  const active = performance.now() - start;
  // Shown, since some servers look only at what a tab shows.
  await vscode.window.showTextDocument(uri, { preview: false });
  await told;
  return { active, findings: performance.now() - start };
}
