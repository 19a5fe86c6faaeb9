import type { CaseRecord } from '../../record/schema.ts';

/** Who made a report. The version is that of `package.json` (`tests/unit/structured-report.test.ts`). */
export const program = { name: 'Ungula', version: '0.1.0' } as const;

/** Gives 16 bytes for a text, the same each time. */
export type Digest = (text: string) => Uint8Array;

/** UIDs that are the same whenever the same is said. */
export interface Uids {
  /** Of this program in this version, as an observer. */
  readonly program: string;
  /** Of a thing of the case. @param what plain values that tell it from every other of the case */
  of(what: readonly (string | number | null)[]): string;
}

/**
 * The UIDs of one case: `2.25.` and a UUID as a number (PS3.5 B.2). The UUID is made of a name (RFC 9562, 5.5): the animal's name,
 * code, kind and birth as the case has them, and what the thing is. No chip and no person is in it, as a short number could be guessed
 * back from it.
 * @param digest the UUID of a name, as 16 bytes
 */
export function uidsOf({ animal }: Pick<CaseRecord, 'animal'>, digest: Digest): Uids {
  const { name = null, code = null, kind = null, foaled = null } = animal?.is ?? {};
  const uid = (text: string): string => `2.25.${asNumber(digest(text))}`;
  return {
    program: uid(JSON.stringify([program.name, program.version])),
    of: (what) => uid(JSON.stringify(['case', name, code, kind, foaled, ...what])),
  };
}

function asNumber(bytes: Uint8Array): string {
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return BigInt(`0x${hex}`).toString();
}
