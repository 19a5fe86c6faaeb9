import * as vscode from 'vscode';
import { eventually, expectEqual, expectThat, type Checks } from '../checks.ts';
import type { CaseFile } from '../expected.ts';
import { quietWord } from '../quiet-word.ts';
import { show } from './case-document.ts';
import { expectFindings } from './findings-shown.ts';
import { addOtherFilesChecks } from './other-files-checks.ts';
import { addPlanChecks } from './plan-checks.ts';

/** `files` is what the command line says of the folder that is open. */
export async function addExtensionChecks(checks: Checks, files: readonly CaseFile[]): Promise<void> {
  await checks.check('the extension is there and a case file wakes it', 40, async () => {
    const extension = vscode.extensions.getExtension('ungula.ungula');
    expectThat(extension !== undefined, 'no extension ungula.ungula');
    const first = files[0];
    expectThat(first !== undefined, 'the examples hold no .hoof file');
    const document = await show(first);
    expectEqual(document.languageId, 'hoof', 'language of a .hoof file');
    await eventually(30, () => expectThat(extension.isActive, 'opening a case file did not activate it'));
    // One whose start threw counts as active too; asked again, it throws the same.
    await extension.activate();
  });

  for (const file of files) {
    await checks.check(`${file.name}: the editor reports what check finds (${file.findings.length})`, 40, async () => {
      await show(file);
      await eventually(20, () => expectFindings(file));
    });
  }

  await checks.check('a word of the notation has a hover', 30, async () => {
    const { file, word, document } = await firstQuietWord(files);
    const text = await eventually(15, async () => {
      const position = new vscode.Position(word.line - 1, word.column);
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        position,
      );
      const shown = hovers
        .flatMap((hover) => hover.contents)
        .map(asText)
        .join('\n')
        .trim();
      expectThat(shown !== '', `no hover over ${word.text} on line ${word.line} of ${file.name}`);
      return shown;
    });
    expectThat(text.length > word.text.length, `the hover over ${word.text} says no more than ${JSON.stringify(text)}`);
  });

  // A file without findings passed above before anything had looked at it.
  await checks.check('after all that the reports are still the same', 10, async () => {
    for (const file of files) expectFindings(file);
  });

  await addOtherFilesChecks(checks, files);
  await addPlanChecks(checks, files);

  await checks.check('the command ungula.openPreview opens a webview tab', 40, async () => {
    const measured = files.find(({ palmarAngles }) => palmarAngles.length > 0);
    expectThat(measured !== undefined, 'no example has a palmar angle');
    await show(measured);
    const before = webviewTabs().length;
    await vscode.commands.executeCommand('ungula.openPreview');
    await eventually(20, () => expectEqual(webviewTabs().length, before + 1, 'webview tabs'));
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
    await eventually(10, () => expectEqual(webviewTabs().length, 0, 'webview tabs after closing'));
  });
}

function asText(content: vscode.MarkdownString | vscode.MarkedString): string {
  return typeof content === 'string' ? content : content.value;
}

async function firstQuietWord(files: readonly CaseFile[]): Promise<{
  file: CaseFile;
  word: NonNullable<ReturnType<typeof quietWord>>;
  document: vscode.TextDocument;
}> {
  for (const file of files) {
    const document = await show(file);
    const word = quietWord(document.getText(), file.findings);
    if (word !== null) return { file, word, document };
  }
  throw new Error('no example has a scale line without a finding to hover over');
}

function webviewTabs(): vscode.Tab[] {
  return vscode.window.tabGroups.all
    .flatMap(({ tabs }) => tabs)
    .filter(({ input }) => input instanceof vscode.TabInputWebview);
}
