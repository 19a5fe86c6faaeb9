import type { Placed, Visit } from '../record/schema.ts';
import { dayOf } from './order-of-days.ts';
import { counted } from './vet-seen.ts';

/** A line `vet` with something in it. */
export const hasVetWords = ({ vet }: Pick<Visit, 'vet'>): boolean => vet.some(({ text }) => text.trim() !== '');

/**
 * Whether the vet has said something from a visit on, which stands at `from` of visits in the order of their days: in words, or by
 * having seen the animal on that day or later. A day that counts for no alarm counts here neither.
 */
export function vetSince(visits: readonly Placed<Visit>[], from: number): boolean {
  const since = visits.slice(from);
  if (since.some(({ is }) => hasVetWords(is))) return true;
  const first = since[0];
  const day = first ? dayOf(first) : null;
  return counted(visits).some((seen) => (day === null ? since.includes(seen.visit) : seen.day >= day));
}
