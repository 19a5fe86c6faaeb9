import { wordsInUse } from '../../shared/language/words.ts';
import type { Connection } from 'vscode-languageserver';
import type { StoredScale } from '../../shared/measures/take.ts';
import { atMost } from '../../shared/picture/at-most.ts';
import type { ByteSource } from '../../shared/picture/byte-source.ts';
import {
  isFileRefusal,
  isOfPath,
  largestPicture,
  mostOpen,
  type FileRefusal,
  type Looked,
} from '../../shared/picture/picture-files.ts';
import {
  listFolderRequest,
  readFileRequest,
  readPictureRequest,
  type FileParams,
  type FolderEntry,
  type PieceParams,
  type WholeFileParams,
} from '../../shared/protocol/files.ts';
import type { FileBytes, Files } from './files.ts';

/** Files by way of the client, for a server that cannot reach them itself. */
export class ClientFiles implements Files {
  private readonly connection: Connection;
  private readonly ready: Promise<void>;
  private open = (): void => {};
  private readonly inTurn = atMost(mostOpen);
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

  // The client knows its folders itself, so the roots are not sent to it.

  async readBytes(uri: string, _roots: readonly string[], most: number): Promise<FileBytes> {
    const answer = await this.ask(readFileRequest, { uri, most } satisfies WholeFileParams);
    if (typeof answer === 'string') {
      const bytes = bytesOf(answer);
      return bytes && bytes.length > most ? 'too large' : bytes;
    }
    const { refused } = (answer ?? {}) as Record<string, unknown>;
    return refused === 'too large' ? 'too large' : null;
  }

  async listFolder(uri: string): Promise<readonly FolderEntry[] | null> {
    const answer = await this.ask(listFolderRequest, { uri } satisfies FileParams);
    return Array.isArray(answer) ? answer.filter(isEntry) : null;
  }

  storedScale(uri: string, _roots: readonly string[], name: string): Promise<Looked<StoredScale>> {
    return this.inTurn(async () => {
      const first = await this.piece(uri, 0, 0);
      if ('refused' in first) return first;
      if (first.size > largestPicture) return { refused: 'too large' };
      const source: ByteSource = {
        size: first.size,
        read: async (start, length) => {
          const piece = await this.piece(uri, start, length);
          if ('refused' in piece) throw new Error(piece.refused);
          return piece.bytes.subarray(0, length);
        },
      };
      try {
        const { storedScale, useWords } = await import('../../shared/picture/stored-scale.ts');
        useWords(wordsInUse());
        return { found: await storedScale(source, name) };
      } catch {
        // Gone or changed while it was read.
        return { refused: 'unreadable' };
      }
    });
  }

  async isThere(uri: string): Promise<boolean | FileRefusal | null> {
    const answer = await this.ask(readPictureRequest, { uri, start: 0, length: 0 } satisfies PieceParams);
    const { refused, stamp } = (answer ?? {}) as Record<string, unknown>;
    // A client that has no answer does not say that the picture is not there.
    if (refused === 'not there') return false;
    return isFileRefusal(refused) && isOfPath(refused) ? refused : typeof stamp === 'string' ? true : null;
  }

  async stampOf(uri: string): Promise<string | null> {
    const piece = await this.piece(uri, 0, 0);
    return 'refused' in piece ? null : piece.stamp;
  }

  private async piece(uri: string, start: number, length: number): Promise<PieceOf | { refused: FileRefusal }> {
    return pieceOf(await this.ask(readPictureRequest, { uri, start, length } satisfies PieceParams));
  }

  private async ask(request: string, params: FileParams | WholeFileParams | PieceParams): Promise<unknown> {
    if (!this.answers) throw new Error(`${params.uri} is out of reach: the client does not answer for files`);
    await this.ready;
    return this.connection.sendRequest<unknown>(request, params).catch(() => null);
  }
}

interface PieceOf {
  readonly size: number;
  readonly stamp: string;
  readonly bytes: Uint8Array;
}

/** Whatever a client answers; what is no piece is no picture. */
function pieceOf(answer: unknown): PieceOf | { refused: FileRefusal } {
  const { refused, size, stamp, bytes } = (answer ?? {}) as Record<string, unknown>;
  if (isFileRefusal(refused)) return { refused };
  const read = typeof bytes === 'string' ? bytesOf(bytes) : null;
  if (!read || typeof size !== 'number' || !(size >= 0) || typeof stamp !== 'string') return { refused: 'not there' };
  return { size, stamp, bytes: read };
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
