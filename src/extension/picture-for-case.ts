import * as vscode from 'vscode';
import { freeName } from '../../shared/edits/film-notation.ts';
import type { FilmOfFoot } from '../../shared/edits/film-of-foot.ts';
import { t } from '../../shared/language/words.ts';
import { feet, type FootName } from '../../shared/notation/choices.ts';
import { footDoc } from '../../shared/notation/vocabulary.ts';
import { decodedFirst, shownAsTheyAre } from '../../shared/picture/file-endings.ts';
import type { SaidOfFilm } from '../../shared/picture/dicom-said.ts';
import { namesIn, pathWithin } from './film-drops.ts';
import { saidBy } from './said-by-file.ts';
import { plainFile } from './transferred-pictures.ts';

/** A lateral film for a case, and the copy of its picture that has to be made beside the case file, where one has. */
export interface ChosenFilm extends FilmOfFoot {
  readonly copy: { readonly to: vscode.Uri; readonly contents: Uint8Array } | null;
  /** What its own file says, where it is a DICOM file. */
  readonly said: SaidOfFilm | null;
}

/** Asks for a foot and its picture. Null where no film is wanted yet; undefined where somebody breaks off. */
export async function askForFilm(caseFile: vscode.Uri, day: string): Promise<ChosenFilm | null | undefined> {
  const items: readonly (vscode.QuickPickItem & { readonly foot: FootName | null })[] = [
    ...feet.map((foot) => ({ foot, label: foot, description: footDoc[foot].replace(/\.$/, '') })),
    { foot: null, label: t('No film yet') },
  ];
  const chosen = await vscode.window.showQuickPick(items, { placeHolder: t('Which foot does the lateral film show?') });
  if (!chosen) return undefined;
  if (chosen.foot === null) return null;
  const folder = vscode.Uri.joinPath(caseFile, '..');
  const [picture] =
    (await vscode.window.showOpenDialog({
      defaultUri: folder,
      title: t('The picture of the film'),
      filters: { [t('Pictures')]: [...shownAsTheyAre, ...decodedFirst.filter((ending) => ending !== '')] },
    })) ?? [];
  return picture && filmOf(picture, chosen.foot, caseFile, day);
}

async function filmOf(
  picture: vscode.Uri,
  foot: FootName,
  caseFile: vscode.Uri,
  day: string,
): Promise<ChosenFilm | undefined> {
  const path = pathWithin(caseFile, picture);
  if (path !== null)
    return { foot, path, copy: null, said: await saidBy(nameOf(picture), async () => plainFile(picture)) };
  const folder = vscode.Uri.joinPath(caseFile, '..');
  const used = new Set((await namesIn(vscode.Uri.joinPath(folder, 'films'))).map((name) => name.toLowerCase()));
  const to = freeName({ name: nameOf(picture) }, nameOf(caseFile).replace(/\.hoof$/i, ''), day, used, foot);
  try {
    const contents = await plainFile(picture);
    const said = await saidBy(nameOf(picture), async () => contents);
    return { foot, path: to, copy: { to: vscode.Uri.joinPath(folder, to), contents }, said };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showWarningMessage(t('The picture cannot be read ({0}).', why));
    return undefined;
  }
}

export const nameOf = (uri: vscode.Uri): string => uri.path.slice(uri.path.lastIndexOf('/') + 1);
