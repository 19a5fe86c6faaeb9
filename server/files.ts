import type { FolderEntry } from '../shared/protocol/files.ts';

/** Reads a file by its URI; null where it cannot. Rejects where nobody can look: neither the server nor its client. */
export type ReadBytes = (uri: string) => Promise<Uint8Array | null>;

/** What stands in a folder, by its URI; null where it cannot be read. Rejects as `ReadBytes` does. */
export type ListFolder = (uri: string) => Promise<readonly FolderEntry[] | null>;
