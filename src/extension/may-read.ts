import { isInside } from './picture-path.ts';

/** What of an address counts here; paths have forward slashes and are not encoded. */
export interface Address {
  readonly scheme: string;
  readonly authority: string;
  readonly path: string;
}

/**
 * Whether the server may have a file or a list of a folder read for it. A case file may come from anybody, so nothing is
 * but what lies in an open folder, or in the folder of an open case file. Pure.
 */
export function mayRead(asked: Address, folders: readonly Address[], cases: readonly Address[]): boolean {
  if (asked.path.split('/').some((step) => step === '..' || step === '.')) return false;
  const beside = cases
    .filter(({ scheme }) => scheme !== 'untitled')
    .map(({ scheme, authority, path }) => ({ scheme, authority, path: path.slice(0, path.lastIndexOf('/')) || '/' }));
  return [...folders, ...beside].some(
    (folder) =>
      folder.scheme === asked.scheme &&
      folder.authority === asked.authority &&
      (asked.path === folder.path || isInside(asked.path, folder.path)),
  );
}
