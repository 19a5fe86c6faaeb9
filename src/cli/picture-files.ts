import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { showableInThread } from '../../disk/decoder-thread.ts';
import { usePicture } from '../../disk/use-picture.ts';
import { t, wordsInUse } from '../../shared/language/words.ts';
import { looksIntoPicture } from '../../shared/measures/film-input.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import { parse, type BlockMemory } from '../../shared/notation/parse.ts';
import { readArchivedFilm, type ArchivedFilm } from '../../shared/picture/archived-film.ts';
import { readFrom } from '../../shared/picture/header-reader.ts';
import { isOfPath, type Looked, type OpenPicture, type Refusal } from '../../shared/picture/picture-files.ts';
import { pictureUri } from '../../shared/picture/picture-uri.ts';
import { refusalWords } from '../../shared/picture/refusal-words.ts';
import type { Showable } from '../../shared/picture/shown-picture.ts';
import { storedScale } from '../../shared/picture/stored-scale.ts';
import { assemble } from '../../shared/record/assemble.ts';
import type { ReportPicture } from '../../shared/report/page.ts';
import type { PicturesMissing, StoredScales } from '../../shared/trim/study.ts';
import type { CaseFile } from './case-files.ts';
import { Unusable, type OptionValue } from './command.ts';
import { PageRoom } from './page-room.ts';
import { here } from './here.ts';

export const rootOption = { type: 'string' } as const;

/** The folder of `--root`, in which the pictures of a case below it may lie; without it each case has its own folder only. */
export async function rootFrom(named: OptionValue): Promise<readonly string[]> {
  if (named === undefined) return [];
  const folder = typeof named === 'string' && named !== '' ? resolve(named) : null;
  const isFolder = folder !== null && (await stat(folder).catch(() => null))?.isDirectory() === true;
  if (!isFolder) throw new Unusable(t('--root takes a folder; {0} is none', String(named)));
  return [folder];
}

/** What is known of the pictures that a case names before it is inspected: inspecting waits for nothing. */
interface KnownPictures {
  readonly scales: StoredScales;
  readonly isMissing: PicturesMissing;
}

/** Looks whether each picture is there, and into those that a film takes its scale from. `memory` spares reading the text twice. */
export async function picturesFor(
  { name, text }: Pick<CaseFile, 'name' | 'text'>,
  root: readonly string[],
  memory: BlockMemory,
): Promise<KnownPictures> {
  const { visits } = assemble(parse(text, memory)).record;
  const films = visits.flatMap(({ is }) => is.films);
  const found = new Map<string, StoredScale>();
  const missing = new Map<string, Refusal>();
  const into = new Set(films.filter(looksIntoPicture).map(({ path }) => path.text));
  const named = new Set([...films, ...visits.flatMap(({ is }) => is.pictures)].map(({ path }) => path.text));
  const look = async (path: string): Promise<void> => {
    const looked = into.has(path)
      ? await use(name, path, root, (picture) => storedScale(picture, path))
      : await use(name, path, root, () => Promise.resolve(null));
    // A case that comes in by standard input is itself no file.
    if ('refused' in looked && isOfPath(looked.refused) && name !== '-') missing.set(path, looked.refused);
    if ('refused' in looked) found.set(path, { lack: refusalWords(looked.refused, path) });
    else if (looked.found) found.set(path, looked.found);
  };
  await Promise.all([...named].map(look));
  return { scales: (path) => found.get(path) ?? null, isMissing: (path) => missing.get(path) ?? false };
}

/** Beside the bundle. Where the program runs from its sources there is none, and it decodes by itself. */
const decoderThread = join(here, 'picture-decoder.thread.cjs');

async function showableAnywhere(bytes: Uint8Array): Promise<Showable> {
  if (existsSync(decoderThread)) return showableInThread(decoderThread, bytes);
  const { showable, useWords } = await import('../../shared/picture/shown-picture.ts');
  useWords(wordsInUse());
  return showable(bytes);
}

/** A picture that a page shows. */
interface Asked {
  readonly caseFile: string;
  /** As written in the case. */
  readonly path: string;
  /** How often it stands in the page: each film that is drawn on it has it. */
  readonly times: number;
}

/** The picture as data for a page, where the page has room for it. */
export async function pictureFor(
  { caseFile, path, times }: Asked,
  root: readonly string[],
  room: PageRoom,
): Promise<ReportPicture> {
  const looked = await use(caseFile, path, root, async (picture): Promise<ReportPicture> => {
    const shown = await showableAnywhere(await picture.read(0, picture.size));
    if ('problem' in shown) return { lack: t('The picture {0} cannot be shown: {1}', path, shown.problem) };
    if (!room.takes(times * shown.bytes.length)) return { lack: PageRoom.lack(path) };
    const { mime, width, height } = shown;
    return { href: `data:${mime};base64,${Buffer.from(shown.bytes).toString('base64')}`, width, height };
  });
  return 'found' in looked ? looked.found : { lack: refusalWords(looked.refused, path) };
}

/** A picture as it may be passed on, without what its file tells beside it, and with the ending of what it is now. */
export async function barePictureFor(
  caseFile: string,
  path: string,
  root: readonly string[],
): Promise<{ readonly bytes: Uint8Array; readonly ending: string } | { readonly lack: string }> {
  const looked = await use(caseFile, path, root, async (picture) => {
    const shown = await showableAnywhere(await picture.read(0, picture.size));
    return 'problem' in shown
      ? { lack: t('The picture {0} cannot be shown: {1}', path, shown.problem) }
      : { bytes: shown.bytes, ending: shown.mime.slice(shown.mime.indexOf('/') + 1) };
  });
  return 'found' in looked ? looked.found : { lack: refusalWords(looked.refused, path) };
}

/** What a film's file refers to it by in an archive; null where it is no DICOM file that says so, or cannot be read. */
export async function archivedFilmFor(
  caseFile: string,
  path: string,
  root: readonly string[],
): Promise<ArchivedFilm | null> {
  const looked = await use(caseFile, path, root, (picture) => readFrom(picture, readArchivedFilm()));
  return 'found' in looked ? looked.found : null;
}

async function use<T>(
  caseFile: string,
  path: string,
  root: readonly string[],
  then: (picture: OpenPicture) => Promise<T>,
): Promise<Looked<T> | { readonly refused: Refusal }> {
  const place = pictureUri(path, uriOfCase(caseFile), root.map(uriOfFolder));
  if ('refused' in place) return place;
  try {
    return await usePicture(
      fileURLToPath(place.uri),
      place.roots.map((uri) => fileURLToPath(uri)),
      then,
    );
  } catch {
    // The disk gave out while it was read.
    return { refused: 'unreadable' };
  }
}

/** What comes in by standard input stands where it is read. */
export const uriOfCase = (name: string): string => pathToFileURL(resolve(name === '-' ? '-.hoof' : name)).href;

export const uriOfFolder = (folder: string): string => pathToFileURL(folder).href;
