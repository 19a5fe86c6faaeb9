import { isOfTheText, type ReadAs, type Told } from './reading.ts';

/**
 * What of an earlier reading no longer holds, a line each. A record may gain keys; a value, and the length of a list, stays. A
 * finding that was an error about the animal or the foot is an error at its line still. One about the text may go, as a later
 * version may understand what this one does not; warnings and less may change.
 */
export function notKept(kept: ReadAs, now: ReadAs): string[] {
  const gone = kept.findings.filter((one) => isAlwaysKept(one) && !now.findings.some((other) => isSame(one, other)));
  const lost = gone.map(({ line, code }) => `line ${line}: the error ${code} is told no more`);
  if (kept.record === null) return lost;
  if (now.record === null) return ['a line that was understood is so no more', ...lost];
  return [...otherwise(kept.record, now.record, 'record'), ...lost];
}

const isAlwaysKept = (one: Told): boolean => one.severity === 'error' && !isOfTheText(one);

const isSame = (one: Told, other: Told): boolean =>
  one.line === other.line && one.code === other.code && one.severity === other.severity;

/** In another order of arithmetic the last digits of a number come out otherwise. */
const isEqual = (kept: unknown, now: unknown): boolean =>
  typeof kept === 'number' && typeof now === 'number' ? Math.abs(kept - now) <= 1e-9 * Math.abs(kept) : kept === now;

function otherwise(kept: unknown, now: unknown, at: string): string[] {
  if (typeof kept !== 'object' || kept === null)
    return isEqual(kept, now) ? [] : [`${at}: ${JSON.stringify(kept)} is now ${JSON.stringify(now)}`];
  if (typeof now !== 'object' || now === null) return [`${at}: is now ${JSON.stringify(now)}`];
  if (Array.isArray(kept) && (!Array.isArray(now) || now.length !== kept.length))
    return [`${at}: ${kept.length} are now ${Array.isArray(now) ? now.length : 'no list'}`];
  return Object.entries(kept).flatMap(([key, one]) =>
    Object.hasOwn(now, key)
      ? otherwise(one, (now as Record<string, unknown>)[key], `${at}.${key}`)
      : [`${at}.${key}: is there no more`],
  );
}
