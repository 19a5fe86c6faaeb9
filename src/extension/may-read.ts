import { isSameOrInside } from '../../shared/picture/picture-place.ts';
import { isAlike, type Address } from './editor-files.ts';

/**
 * The folders of `asked` from which the server may have a file or a list of a folder read for it. A case file may come from
 * anybody, so nothing is read but what lies in an open folder, or in the folder of an open case file. Pure.
 * @returns paths; none where it may not be read.
 */
export function readableFrom(asked: Address, folders: readonly Address[], cases: readonly Address[]): string[] {
  if (asked.path.split('/').some((step) => step === '..' || step === '.')) return [];
  const beside = cases
    .filter(({ scheme }) => scheme !== 'untitled')
    .map(({ scheme, authority, path }) => ({ scheme, authority, path: path.slice(0, path.lastIndexOf('/')) || '/' }));
  return [...folders, ...beside]
    .filter((folder) => isAlike(folder, asked) && isSameOrInside(asked.path, folder.path))
    .map(({ path }) => path);
}
