import * as vscode from 'vscode';
import { t } from '../../shared/language/words.ts';
import { isOwnReport } from '../../shared/export/structured/own-report.ts';
import { largestPicture, type UsePicture } from '../../shared/picture/picture-files.ts';
import { picturePlace } from '../../shared/picture/picture-place.ts';
import type { PageGrounds } from '../../shared/protocol/page-grounds.ts';
import type { ListedReportFilm, ReportQuestion } from '../../shared/protocol/page-thread.ts';
import type { CaseServer } from './case-server.ts';
import { dayHere } from './day-here.ts';
import type { PageMaker } from './page-maker.ts';
import { pictureRoots } from './pictures.ts';
import { writeWhole } from './save-from-page.ts';

interface StructuredReportParts {
  readonly server: CaseServer;
  readonly maker: PageMaker;
  readonly files: UsePicture<vscode.Uri>;
  /** The case that the preview shows, where the command is given there. */
  readonly previewed: () => vscode.TextDocument | null;
}

/** Bytes of a film's file in which all that it says of its study lies; the thread reads no header that goes on for longer. */
const headerBytes = 2 ** 24;

/** Writes the measures of a film of the open case as a DICOM Structured Report; the text may be unsaved. */
export class StructuredReports implements vscode.Disposable {
  readonly #parts: StructuredReportParts;

  constructor(parts: StructuredReportParts) {
    this.#parts = parts;
  }

  async write(): Promise<void> {
    const { maker } = this.#parts;
    const active = vscode.window.activeTextEditor;
    const document = active?.document.languageId === 'hoof' ? active.document : this.#parts.previewed();
    if (!document) {
      say(t('Open a case file (.hoof) first: a report is made of one of its films.'));
      return;
    }
    try {
      const line = active?.document === document ? active.selection.active.line : null;
      await this.#written(document, line, maker);
    } finally {
      maker.end();
    }
  }

  dispose(): void {
    this.#parts.maker.end();
  }

  async #written(document: vscode.TextDocument, line: number | null, maker: PageMaker): Promise<void> {
    let grounds: PageGrounds;
    try {
      grounds = await this.#parts.server.pageGrounds(document.uri);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      complain(t('The language server gave no answer ({0}). Run “Ungula: Restart language server”.', why));
      return;
    }
    const caseName = document.uri.path.slice(document.uri.path.lastIndexOf('/') + 1);
    const about: Omit<ReportQuestion, 'film' | 'header' | 'names'> = { grounds, caseName, on: dayHere() };
    const listed = await maker.report({ ...about, film: null, header: null, names: false });
    if (!('films' in listed)) {
      if ('problem' in listed) complain(listed.problem);
      return;
    }
    const film = await chosenFilm(listed.films, line);
    const names = film && (await chosenNames());
    if (!film || names === undefined) return;
    const header = await this.#header(film.picture, document.uri);
    const made = await maker.report({ ...about, film: listed.films.indexOf(film), header, names });
    if (!('report' in made)) {
      if ('problem' in made) complain(made.problem);
      return;
    }
    await saved(made.report, film.fileName, document.uri);
  }

  /** Null where there is no such file, or it may not be read: the report then says that it refers to no image. */
  async #header(path: string, caseFile: vscode.Uri): Promise<Uint8Array | null> {
    if (caseFile.scheme === 'untitled') return null;
    const roots = pictureRoots(caseFile);
    const place = picturePlace(
      path,
      vscode.Uri.joinPath(caseFile, '..').path,
      roots.map((root) => root.path),
    );
    if ('refused' in place) return null;
    try {
      const looked = await this.#parts.files(caseFile.with({ path: place.path }), roots, (picture) =>
        picture.read(0, Math.min(picture.size, headerBytes)),
      );
      return 'found' in looked ? looked.found : null;
    } catch {
      return null;
    }
  }
}

/** The film that the cursor stands in; else one is chosen. */
async function chosenFilm(
  films: readonly ListedReportFilm[],
  line: number | null,
): Promise<ListedReportFilm | undefined> {
  if (films.length === 0) {
    say(t('This case has no film, so there is nothing to report.'));
    return undefined;
  }
  const at = line === null ? undefined : films.find((film) => film.line <= line && line <= film.endLine);
  if (at) return at;
  const items = films.map((film) => ({ label: film.title, description: film.picture, film })).toReversed();
  const chosen = await vscode.window.showQuickPick(items, { placeHolder: t('Which film is the report of?') });
  return chosen?.film;
}

async function chosenNames(): Promise<boolean | undefined> {
  const chosen = await vscode.window.showQuickPick(
    [
      {
        label: t('Without names'),
        description: t('a stand-in for the patient’s number, nobody who read the film'),
        names: false,
      },
      {
        label: t('With names'),
        description: t('patient’s number and study of the film’s own file, who read it'),
        names: true,
      },
    ],
    { placeHolder: t('Is the report to say who?') },
  );
  return chosen?.names;
}

async function saved(report: Uint8Array, fileName: string, caseFile: vscode.Uri): Promise<void> {
  // Apart from the film's own file, which may well bear the same name.
  const named = fileName.replace(/\.dcm$/, '-measures.dcm');
  const beside = caseFile.scheme === 'untitled' ? null : vscode.Uri.joinPath(caseFile, '..', named);
  const chosen = await vscode.window.showSaveDialog({
    filters: { [t('Structured report (DICOM)')]: ['dcm'] },
    title: t('Save the structured report'),
    ...(beside && { defaultUri: beside }),
  });
  if (!chosen) return;
  const name = chosen.path.slice(chosen.path.lastIndexOf('/') + 1);
  try {
    if (!(await mayBeReplaced(chosen))) {
      complain(t('{0} is there already and is no structured report of this program; it was left as it is.', name));
      return;
    }
    await writeWhole(chosen, report);
    void vscode.window.setStatusBarMessage(t('Saved as {0}.', name), 3000);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    complain(t('It could not be saved ({0}). Choose another folder, one that you may write to.', why));
  }
}

/** The editor has asked whether the file is to be replaced, and whoever says yes may have a film before the eyes: never that. */
async function mayBeReplaced(file: vscode.Uri): Promise<boolean> {
  let size: number;
  try {
    ({ size } = await vscode.workspace.fs.stat(file));
  } catch {
    return true; // Not there yet, or cannot be reached, which saving says.
  }
  // No report of ours is as large as a film may be.
  return size <= largestPicture && isOwnReport(await vscode.workspace.fs.readFile(file));
}

const say = (words: string): void => void vscode.window.showInformationMessage(words);
const complain = (words: string): void => void vscode.window.showErrorMessage(words);
