import * as vscode from 'vscode';
import { eventually, expectEqual, expectThat, type Checks } from '../checks.ts';
import type { CaseFile } from '../expected.ts';
import { expectFindings, findingsShown } from './findings-shown.ts';
import { show, uriOf } from './case-document.ts';

const SCHEME = 'ungula-memory';

/** What the server reads beside the texts that the editor hands it, on the disk or by way of the editor. */
export async function addOtherFilesChecks(checks: Checks, files: readonly CaseFile[]): Promise<void> {
  await checks.check(
    'a case on a virtual file system finds its DICOM film there, and the scale in it',
    40,
    async () => {
      const file = files.find(({ name }) => name === 'with-dicom.hoof');
      expectThat(file !== undefined, 'there is no case with a DICOM film');
      const held = new Map<string, Uint8Array>();
      for (const name of [file.name, 'films/bramble.dcm', 'films/with-dicom-rf.png'])
        held.set(`/case/${name}`, await vscode.workspace.fs.readFile(uriOf({ ...file, name })));
      const provider = vscode.workspace.registerFileSystemProvider(SCHEME, new Held(held), { isReadonly: true });
      try {
        const uri = vscode.Uri.from({ scheme: SCHEME, path: `/case/${file.name}` });
        await vscode.window.showTextDocument(uri, { preview: false });
        await eventually(20, () => expectEqual(findingsShown(uri), findingsShown(uriOf(file)), 'findings'));
        expectThat(findingsShown(uri).length > 0, 'nothing was found, so nothing was compared');
      } finally {
        await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
        provider.dispose();
      }
    },
  );

  await checks.check(
    'a set of reference values of one’s own in the folder counts, and no longer when unset',
    40,
    async () => {
      const file = files.find(({ palmarAngles }) => palmarAngles.length > 0);
      const folder = vscode.workspace.workspaceFolders?.[0];
      expectThat(file !== undefined && folder !== undefined, 'no example has a palmar angle');
      const name = 'suite.hoof-reference.json';
      const set = {
        'ungula-reference': 1,
        name: 'Our clinic',
        source: { cite: 'films of our own' },
        bands: [{ measure: 'palmar-angle', high: -80 }],
      };
      await vscode.workspace.fs.writeFile(
        vscode.Uri.joinPath(folder.uri, name),
        new TextEncoder().encode(JSON.stringify(set)),
      );
      await show(file);
      const setting = vscode.workspace.getConfiguration('ungula');
      await setting.update('reference.files', [name], vscode.ConfigurationTarget.Workspace);
      await eventually(20, () =>
        expectThat(
          findingsShown(uriOf(file)).some((line) => line.includes('films of our own')),
          'no finding names the source of the set',
        ),
      );
      await setting.update('reference.files', undefined, vscode.ConfigurationTarget.Workspace);
      await eventually(20, () => expectFindings(file));
    },
  );
}

/** A few files that are nowhere but here. */
class Held implements vscode.FileSystemProvider {
  readonly #files: ReadonlyMap<string, Uint8Array>;
  readonly #none = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.#none.event;

  constructor(files: ReadonlyMap<string, Uint8Array>) {
    this.#files = files;
  }

  stat(uri: vscode.Uri): vscode.FileStat {
    return { type: vscode.FileType.File, ctime: 0, mtime: 0, size: this.readFile(uri).length };
  }
  readFile(uri: vscode.Uri): Uint8Array {
    const bytes = this.#files.get(uri.path);
    if (bytes === undefined) throw vscode.FileSystemError.FileNotFound(uri);
    return bytes;
  }
  readDirectory(): [string, vscode.FileType][] {
    return [];
  }
  watch(): vscode.Disposable {
    return new vscode.Disposable(() => {});
  }
  createDirectory(uri: vscode.Uri): void {
    throw vscode.FileSystemError.NoPermissions(uri);
  }
  writeFile(uri: vscode.Uri): void {
    throw vscode.FileSystemError.NoPermissions(uri);
  }
  delete(uri: vscode.Uri): void {
    throw vscode.FileSystemError.NoPermissions(uri);
  }
  rename(uri: vscode.Uri): void {
    throw vscode.FileSystemError.NoPermissions(uri);
  }
}
