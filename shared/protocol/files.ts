/**
 * Files as the server asks its client for them where it cannot reach them itself: in a web worker, and for any URI that
 * is not a `file:` one. A client that answers says so with `initializationOptions.answersForFiles: true`.
 */

/** Params: `FileParams`. Answer: the bytes in base64; null where the file cannot be read. */
export const readFileRequest = 'ungula/readFile';

/** Params: `FileParams`, the URI of a folder. Answer: `readonly FolderEntry[]`; null where the folder cannot be read. */
export const listFolderRequest = 'ungula/listFolder';

export interface FileParams {
  readonly uri: string;
}

export interface FolderEntry {
  /** One step of a path, not encoded. */
  readonly name: string;
  readonly kind: 'file' | 'folder';
  /** Bytes; null where it was not said. */
  readonly size: number | null;
}
