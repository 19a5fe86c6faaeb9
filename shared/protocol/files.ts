import type { FileRefusal } from '../picture/picture-files.ts';

/**
 * Files as the server asks its client for them where it cannot reach them itself: in a web worker, and for any URI that
 * is not a `file:` one. A client that answers says so with `initializationOptions.answersForFiles: true`. It is the client
 * who knows which folders are open and where links lead: it reads nothing outside of them.
 */

/** Params: `WholeFileParams`. Answer: `FileAnswer`, the bytes in base64; null where the file cannot be read. */
export const readFileRequest = 'ungula/readFile';

/** Params: `FileParams`, the URI of a folder. Answer: `readonly FolderEntry[]`; null where the folder cannot be read. */
export const listFolderRequest = 'ungula/listFolder';

/** A piece of a picture, so that for its header not all of it is sent. Params: `PieceParams`. Answer: `Piece`. */
export const readPictureRequest = 'ungula/readPicture';

export interface FileParams {
  readonly uri: string;
}

export interface WholeFileParams extends FileParams {
  /** Bytes; a larger file is not read. */
  readonly most: number;
}

export type FileAnswer = string | { readonly refused: 'too large' } | null;

export interface PieceParams {
  readonly uri: string;
  /** Bytes; of a `length` of 0 only size and stamp are wanted. */
  readonly start: number;
  readonly length: number;
}

export type FilePiece =
  | {
      /** Bytes of the whole picture. */
      readonly size: number;
      /** Another one as soon as the file is. */
      readonly stamp: string;
      /** In base64; fewer than asked for at the end of the file. */
      readonly bytes: string;
    }
  | { readonly refused: FileRefusal };

export interface FolderEntry {
  /** One step of a path, not encoded. */
  readonly name: string;
  readonly kind: 'file' | 'folder';
  /** Bytes; null where it was not said. */
  readonly size: number | null;
}
