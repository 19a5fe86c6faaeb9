import type { CancellationToken } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { ReadFilms, takenFilms, type TakenFilm } from '../../shared/agreement/read-films.ts';
import { toldReadings } from '../../shared/agreement/told-readings.ts';
import { t } from '../../shared/language/words.ts';
import type { ReadingsOf, ReadingsResult } from '../../shared/protocol/readings.ts';
import type { ShownLessons } from '../serving/shown-lessons.ts';
import type { Inspections } from '../serving/inspections.ts';
import { stopIfCancelled } from '../serving/guard.ts';
import { isWithin, keyOf, parentOf } from '../workspace/file-key.ts';
import type { IndexEntry } from '../workspace/index-entry.ts';
import { Pauses } from '../workspace/pause.ts';
import type { Workspace } from '../workspace/workspace.ts';

/** The answer for a file that is not open. */
export const noReadings: ReadingsResult = {
  version: null,
  of: 'case',
  films: [],
  copies: 0,
  followed: 0,
  files: 0,
  lack: null,
};

/** More than a page draws at once; of a larger study the command line tells all. */
const mostFiles = 1000;

/** Of files that are not open what was read, for as long as they are as they were: a study is looked at for some time. */
const taken = new WeakMap<IndexEntry, readonly TakenFilm[]>();

/** What was read in a case; with the folder in all cases in it and below, its own films first. */
export async function readings(
  document: TextDocument,
  of: ReadingsOf,
  {
    inspections,
    workspace,
    lessons,
  }: { readonly inspections: Inspections; readonly workspace: Workspace; readonly lessons: ShownLessons },
  token: CancellationToken,
): Promise<ReadingsResult> {
  const films = new ReadFilms();
  const { version } = document;
  // The key may be among them, in this file or another of the folder.
  if (lessons.keepsBack(document, inspections.of(document)))
    return {
      ...noReadings,
      version,
      of,
      files: 1,
      lack: t('This is a lesson: what others have read is told once the key of each film is shown.'),
    };
  const own = keyOf(document.uri);
  const { folder } = parentOf(own);
  films.add(folder, takenFilms(inspections.of(document).study.films));
  let [files, lack]: [number, string | null] = [1, null];
  if (of === 'folder') {
    await workspace.index.settled(token);
    const others = [...workspace.cases()]
      .filter(({ key }) => key !== own && isWithin(key, folder))
      .sort((a, b) => (a.key < b.key ? -1 : 1));
    if (others.length >= mostFiles)
      lack = t('Of {0} case files the first {1} are shown; “ungula agree” tells all.', others.length + 1, mostFiles);
    if (!workspace.index.covers(own))
      lack = t('The folder of this case is not open in the editor, so only this case is shown. Open its folder.');
    const pauses = new Pauses();
    for (const one of others.slice(0, mostFiles - 1)) {
      const read = one.document
        ? takenFilms(inspections.of(one.document).study.films)
        : (taken.get(one.entry) ?? takenFilms((await workspace.inspection(one.uri))?.study.films ?? []));
      if (!one.document) taken.set(one.entry, read);
      films.add(parentOf(one.key).folder, read, one.key.slice(folder.length + 1));
      files += 1;
      await pauses.now();
      stopIfCancelled(token);
    }
  }
  return { version, of, files, lack, ...toldReadings(films.all()) };
}
