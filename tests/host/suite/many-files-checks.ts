import * as vscode from 'vscode';
import { eventually, expectEqual, expectThat, type Checks } from '../checks.ts';

const MANY = 200;

/** Two hundred case files are open at once, every third with an error: each is told of its own, and all can be asked of still. */
export async function addManyFilesChecks(checks: Checks): Promise<void> {
  await checks.check(
    `${MANY} files are open at once, and each is told what is wrong in it and in no other`,
    150,
    async () => {
      const folder = vscode.workspace.workspaceFolders?.[0];
      expectThat(folder !== undefined, 'no folder is open');
      const uris: vscode.Uri[] = [];
      for (let at = 0; at < MANY; at++) {
        const uri = vscode.Uri.joinPath(folder.uri, 'many', `${at}.hoof`);
        const visit = at % 3 === 0 ? 'visit 2031-02-30' : 'visit 2026-03-04';
        const text = `hoof 1\n\ncase "Case ${at}"\n  animal    pony mare\n\n${visit}\n  obel       0\n`;
        await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
        await vscode.window.showTextDocument(uri, { preview: false });
        uris.push(uri);
      }
      await eventually(60, () => {
        const wrong = uris.map((uri) =>
          vscode.languages.getDiagnostics(uri).some(({ severity }) => severity === vscode.DiagnosticSeverity.Error),
        );
        expectEqual(
          wrong.flatMap((has, at) => (has === (at % 3 === 0) ? [] : [at])),
          [],
          'files that are told wrongly',
        );
      });
      const [first] = uris;
      expectThat(first !== undefined, 'no file');
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        first,
        new vscode.Position(3, 3),
      );
      expectThat(hovers.length > 0, 'the first file has no hover any more');
    },
  );
}
