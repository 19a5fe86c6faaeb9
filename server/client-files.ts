import type { Connection } from 'vscode-languageserver';
import { listFolderRequest, readFileRequest, type FileParams, type FolderEntry } from '../shared/protocol/files.ts';
import type { ListFolder, ReadBytes } from './files.ts';

/** Files by way of the client, for a server that cannot reach them itself. */
export class ClientFiles {
  private readonly connection: Connection;
  private readonly ready: Promise<void>;
  private open = (): void => {};
  /** Whether the client has said that it answers. */
  answers = false;

  constructor(connection: Connection) {
    this.connection = connection;
    this.ready = new Promise((resolve) => (this.open = resolve));
  }

  /** The protocol lets a server ask nothing before this. */
  initialized(): void {
    this.open();
  }

  readonly readBytes: ReadBytes = async (uri) => {
    const answer = await this.ask(readFileRequest, uri);
    return typeof answer === 'string' ? bytesOf(answer) : null;
  };

  readonly listFolder: ListFolder = async (uri) => {
    const answer = await this.ask(listFolderRequest, uri);
    return Array.isArray(answer) ? answer.filter(isEntry) : null;
  };

  private async ask(request: string, uri: string): Promise<unknown> {
    if (!this.answers) throw new Error(`${uri} is out of reach: the client does not answer for files`);
    await this.ready;
    const params: FileParams = { uri };
    return this.connection.sendRequest<unknown>(request, params).catch(() => null);
  }
}

function bytesOf(base64: string): Uint8Array | null {
  try {
    const text = atob(base64);
    const bytes = new Uint8Array(text.length);
    for (let at = 0; at < text.length; at++) bytes[at] = text.charCodeAt(at);
    return bytes;
  } catch {
    return null;
  }
}

/** A name that is more than one step would lead out of the folder that was asked for. */
function isEntry(value: unknown): value is FolderEntry {
  const { name, kind, size } = (value ?? {}) as Record<keyof FolderEntry, unknown>;
  return (
    typeof name === 'string' &&
    !/^\.{0,2}$|\//.test(name) &&
    (kind === 'file' || kind === 'folder') &&
    (size === null || typeof size === 'number')
  );
}
