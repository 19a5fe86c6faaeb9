import { raised } from './raised-codes.ts';
import { unmark } from './marked-text.ts';

/** By the name of a file: a text for each code that a finding has. */
export const wordyCases = (): [string, string][] =>
  Object.entries(raised).map(([code, marked]) => [`${code.replaceAll(/[/.]/g, '-')}.hoof`, unmark(marked).text]);
