import type { StoredScale } from '../../shared/measures/take.ts';
import type { FileRefusal, Looked } from '../../shared/picture/picture-files.ts';
import type { FolderEntry } from '../../shared/protocol/files.ts';

/** The bytes of a file of at most as many as were asked for, a larger one is not read; null where it cannot be read. */
export type FileBytes = Uint8Array | 'too large' | null;

/** Reads a file of at most `most` bytes by its URI. Rejects where nobody can look: neither the server nor its client. */
export type ReadBytes = (uri: string, most: number) => Promise<FileBytes>;

/** What stands in a folder, by its URI; null where it cannot be read. Rejects as `ReadBytes` does. */
export type ListFolder = (uri: string) => Promise<readonly FolderEntry[] | null>;

/**
 * The files of one machine by their URIs. Of each is read only what lies, with links followed, in one of `roots`. All reject
 * where nobody can look.
 */
export interface Files {
  /** The bytes of a plain file of at most `most`. */
  readBytes(uri: string, roots: readonly string[], most: number): Promise<FileBytes>;
  /** What stands in a folder, links left out; null where it cannot be read. */
  listFolder(uri: string, roots: readonly string[]): Promise<readonly FolderEntry[] | null>;
  /** What a picture says of its scale. `name` is what the film calls it. */
  storedScale(uri: string, roots: readonly string[], name: string): Promise<Looked<StoredScale>>;
  /** Whether a picture is there; null where that cannot be told. Nothing of it is read. */
  isThere(uri: string, roots: readonly string[]): Promise<boolean | FileRefusal | null>;
  /** A stamp that changes whenever the file changes; null where there is no file. */
  stampOf(uri: string, roots: readonly string[]): Promise<string | null>;
}
