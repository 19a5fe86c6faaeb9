import type { Visit } from '../record/schema.ts';
import { wornLineWords } from './worn-words.ts';

/** What a visit says beside its measures, plans and trims, a phrase each, in the order in which one tells it. */
export function seenWords({ worn }: Visit): readonly string[] {
  return worn.map(wornLineWords);
}
