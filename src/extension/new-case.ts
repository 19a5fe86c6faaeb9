import * as vscode from 'vscode';
import { caseFileName, newCaseText } from '../../shared/edits/new-case.ts';
import { snippetFromFile } from '../../shared/edits/lines-from-file.ts';
import { newVisit, visitOn } from '../../shared/edits/new-visit.ts';
import { t } from '../../shared/language/words.ts';
import { animals } from '../../shared/notation/choices.ts';
import { dayHere } from './day-here.ts';
import { namesIn } from './film-drops.ts';
import { askForFilm, type ChosenFilm } from './picture-for-case.ts';

type ShowPreview = (file: vscode.Uri) => Promise<void>;

/**
 * A case file with its first visit: asks for name, animal, foot and picture, and shows it with the preview beside. `at`: the folder
 * that it is made in, where the command stands for one.
 */
export async function newCase(showPreview: ShowPreview, at?: vscode.Uri): Promise<void> {
  const folder = at instanceof vscode.Uri ? at : await folderForCase();
  if (!folder) return;
  const name = await askForName();
  if (name === null) return;
  const animal = await vscode.window.showQuickPick(animals, { placeHolder: t('What kind of animal?') });
  const kind = animals.find((one) => one === animal);
  if (!kind) return;
  const today = dayHere();
  const stem = caseFileName(name, new Set((await namesIn(folder)).map((one) => one.toLowerCase())));
  const file = vscode.Uri.joinPath(folder, `${stem}.hoof`);
  const film = await askForFilm(file, today);
  if (film === undefined) return;
  const edit = new vscode.WorkspaceEdit();
  const text = newCaseText({ name, animal: kind, today, film });
  const contents = new TextEncoder().encode(text);
  edit.createFile(file, { contents });
  addCopy(edit, film);
  if (!(await vscode.workspace.applyEdit(edit))) {
    await discardHalf([{ uri: file, contents }, ...copyOf(film)]);
    void vscode.window.showErrorMessage(t('The case could not be written into {0}.', folder.fsPath));
    return;
  }
  const editor = await vscode.window.showTextDocument(file, { selection: endOf(text) });
  await proposeFromFile(editor, film, today);
  await showPreview(file);
}

/** Asked again while nothing is written; null where somebody breaks off. */
async function askForName(): Promise<string | null> {
  for (;;) {
    const name = await vscode.window.showInputBox({ title: t('New case'), prompt: t('What is the animal called?') });
    if (name === undefined) return null;
    if (name.trim() !== '') return name.trim();
  }
}

/** A visit of today at the end of the case that is edited; where one is there already, it is shown. */
export async function addVisit(showPreview: ShowPreview): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'hoof' || editor.document.uri.scheme === 'untitled') {
    void vscode.window.showInformationMessage(t('Open a case file (.hoof) that is saved first: a visit goes into it.'));
    return;
  }
  const { document } = editor;
  const today = dayHere();
  const there = visitOn(document.getText(), today);
  if (there !== null) {
    const place = new vscode.Position(there, 0);
    editor.selection = new vscode.Selection(place, place);
    editor.revealRange(new vscode.Range(place, place));
    void vscode.window.showInformationMessage(
      t('Today’s visit is there already, line {0}. Drop a picture into it to add a film.', there + 1),
    );
    return;
  }
  const film = await askForFilm(document.uri, today);
  if (film === undefined) return;
  const { at, text } = newVisit(document.getText(), { today, film });
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, document.positionAt(at), text);
  addCopy(edit, film);
  if (!(await vscode.workspace.applyEdit(edit))) {
    await discardHalf(copyOf(film));
    void vscode.window.showErrorMessage(t('The visit could not be written.'));
    return;
  }
  const shown = await vscode.window.showTextDocument(document, { selection: endOf(document.getText()) });
  await proposeFromFile(shown, film, today);
  await showPreview(document.uri);
}

/** What the picture's own file says, below the line of the film, which is the last one; to be left or deleted line by line. */
async function proposeFromFile(editor: vscode.TextEditor, film: ChosenFilm | null, today: string): Promise<void> {
  const snippet = snippetFromFile(film?.said ?? null, { day: today, today });
  const below = endOf(editor.document.getText()).end.line + 1;
  if (snippet !== null) await editor.insertSnippet(new vscode.SnippetString(snippet), new vscode.Position(below, 0));
}

function addCopy(edit: vscode.WorkspaceEdit, film: ChosenFilm | null): void {
  if (film?.copy) edit.createFile(film.copy.to, { contents: film.copy.contents });
}

/** A file that was to be written. */
interface WantedFile {
  readonly uri: vscode.Uri;
  readonly contents: Uint8Array;
}

const copyOf = (film: ChosenFilm | null): readonly WantedFile[] =>
  film?.copy ? [{ uri: film.copy.to, contents: film.copy.contents }] : [];

/** Takes away what a full disk left: the beginning of what was to be written, and no file that somebody else has put there. */
async function discardHalf(files: readonly WantedFile[]): Promise<void> {
  for (const { uri, contents } of files)
    try {
      const there = await vscode.workspace.fs.readFile(uri);
      const isHalf = there.length < contents.length && there.every((byte, at) => byte === contents[at]);
      if (isHalf) await vscode.workspace.fs.delete(uri);
    } catch {
      // It was not begun, or nothing can be taken away here either.
    }
}

/** Behind the last line that has words. */
function endOf(text: string): vscode.Range {
  const lines = text.trimEnd().split(/\r\n|\r|\n/);
  const place = new vscode.Position(lines.length - 1, lines.at(-1)?.length ?? 0);
  return new vscode.Range(place, place);
}

/** The folder that is open, of several the one that is chosen; where none is, one that is asked for. */
async function folderForCase(): Promise<vscode.Uri | undefined> {
  const open = vscode.workspace.workspaceFolders ?? [];
  if (open.length === 1) return open[0]?.uri;
  if (open.length > 1) return (await vscode.window.showWorkspaceFolderPick())?.uri;
  const [chosen] =
    (await vscode.window.showOpenDialog({
      canSelectFiles: false,
      canSelectFolders: true,
      title: t('The folder for the case and its films'),
    })) ?? [];
  return chosen;
}
