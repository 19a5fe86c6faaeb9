import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';
import type { Diagnostic } from 'vscode-languageserver';

/**
 * The diagnostics of a file that is not open. What is told of a case may be longer than the case, and says much the same
 * again and again: packed it takes a tenth of the room, which counts with ten thousand files.
 */
export class PackedDiagnostics {
  private readonly bytes: Uint8Array | null;

  constructor(diagnostics: readonly Diagnostic[]) {
    this.bytes = diagnostics.length === 0 ? null : deflateSync(strToU8(JSON.stringify(diagnostics)));
  }

  unpacked(): Diagnostic[] {
    return this.bytes ? (JSON.parse(strFromU8(inflateSync(this.bytes))) as Diagnostic[]) : [];
  }

  isSameAs({ bytes }: PackedDiagnostics): boolean {
    if (!bytes || !this.bytes) return bytes === this.bytes;
    return bytes.length === this.bytes.length && this.bytes.every((byte, index) => byte === bytes[index]);
  }
}
