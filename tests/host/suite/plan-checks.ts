import * as vscode from 'vscode';
import { eventually, expectThat, type Checks } from '../checks.ts';
import type { CaseFile } from '../expected.ts';
import { show } from './case-document.ts';

/** A plan from the editor: written by one action, spoilt by hand, told at its number, mended by one fix. */
export async function addPlanChecks(checks: Checks, files: readonly CaseFile[]): Promise<void> {
  await checks.check('a plan is written by one action, and an unsafe one is mended by one fix', 60, async () => {
    const steepest = files
      .flatMap((file) => file.palmarAngles.map(({ value, filmLine }) => ({ file, value, filmLine })))
      .filter(({ file }) => !file.findings.some(({ code }) => code.startsWith('notation/')))
      .toSorted((a, b) => b.value - a.value)[0];
    expectThat(steepest !== undefined, 'no example has a palmar angle');
    const document = await show(steepest.file);
    const headers = linesWith(document, /^\s*plan /).length;

    const plan = await eventually(20, async () =>
      actionAt(document, steepest.filmLine - 1, 'sole plane', vscode.CodeActionKind.RefactorRewrite),
    );
    expectThat(plan.edit !== undefined, 'the plan was not worked out');
    expectThat(await vscode.workspace.applyEdit(plan.edit), 'the plan could not be put into the text');
    expectThat(linesWith(document, /^\s*plan /).length === headers + 1, 'no plan was added');

    const line = linesWith(document, /^\s*heel\s+down/).find((one) => one > steepest.filmLine - 1);
    expectThat(line !== undefined, 'the plan takes no heel');
    expectThat(trimFindings(document, line).length === 0, 'the plan that was computed breaks a limit');

    const unsafe = new vscode.WorkspaceEdit();
    const text = document.lineAt(line).text;
    unsafe.replace(document.uri, document.lineAt(line).range, text.replace(/[\d.]+ mm/, '24 mm'));
    await vscode.workspace.applyEdit(unsafe);
    await eventually(15, () =>
      expectThat(
        trimFindings(document, line).some(({ range }) => document.getText(range) === '24 mm'),
        'the unsafe cut is not told at its number',
      ),
    );

    const fix = await actionAt(document, line, 'the most that breaks no limit', vscode.CodeActionKind.QuickFix);
    expectThat(fix.edit !== undefined && (await vscode.workspace.applyEdit(fix.edit)), 'the fix could not be applied');
    await eventually(15, () => expectThat(trimFindings(document, line).length === 0, 'the fix left a limit broken'));
    await vscode.commands.executeCommand('workbench.action.files.revert');
  });
}

function linesWith(document: vscode.TextDocument, pattern: RegExp): number[] {
  return Array.from({ length: document.lineCount }, (_, line) => line).filter((line) =>
    pattern.test(document.lineAt(line).text),
  );
}

function trimFindings(document: vscode.TextDocument, line: number): vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(document.uri).filter(({ range, code }) => {
    const name = String(typeof code === 'object' ? code.value : code);
    return range.start.line === line && name.startsWith('trim/');
  });
}

async function actionAt(
  document: vscode.TextDocument,
  line: number,
  words: string,
  kind: vscode.CodeActionKind,
): Promise<vscode.CodeAction> {
  const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
    'vscode.executeCodeActionProvider',
    document.uri,
    document.lineAt(line).range,
    kind.value,
    20,
  );
  const found = actions.find(({ title }) => title.includes(words));
  expectThat(
    found !== undefined,
    `no action «${words}» on line ${line + 1}, only: ${actions.map(({ title }) => title).join('; ')}`,
  );
  return found;
}
