import { createHash } from 'node:crypto';
import type { Digest } from '../../shared/export/structured/uids.ts';

/** What the names of our UUIDs lie in; drawn once, by chance. */
const ours = Buffer.from('5d0b7c1e9a3f4c52b86e17f0a2d94e63', 'hex');

export const uidDigest: Digest = (text) => nameUuid(ours, text);

/** The UUID of a name, version 5 (RFC 9562, 5.5): the first 16 bytes of a SHA-1 with the version and the variant set. */
export function nameUuid(namespace: Uint8Array, text: string): Uint8Array {
  const bytes = createHash('sha1').update(namespace).update(text, 'utf8').digest().subarray(0, 16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x50;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  return bytes;
}
