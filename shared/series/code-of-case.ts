import { readDate } from '../notation/dates.ts';
import type { Tree } from '../notation/tree.ts';
import { saidTexts, type SaidText } from './texts.ts';

/**
 * Whether a study code tells whose it is: a piece of a name of the case, whatever its accents; the short name of the animal; digits of
 * one of its numbers; one of its dates. What stands in any code by chance is none.
 */
export function namesItself(code: string, tree: Tree): boolean {
  const plain = code.toLowerCase();
  const joined = lettersOf(plain);
  return saidTexts({ tree }).some((said) => {
    switch (said.kind) {
      case 'name':
      case 'person':
      case 'reader':
        return holdsName(said, plain, joined);
      case 'number':
        return digitsIn(code).some((digits) => isOfNumber(digits, lettersOf(said.text.toLowerCase())));
      case 'date':
        return datesAsDigits(said.text).some((digits) => joined.includes(digits));
      default:
        return false;
    }
  });
}

/** Shorter pieces stand in any code. */
const leastPiece = 3;

function holdsName({ kind, text }: SaidText, code: string, joined: string): boolean {
  return spellings(text).some((name) => {
    const whole = lettersOf(name);
    if (name.split(/[^\p{L}\p{N}]+/u).some((piece) => piece.length >= leastPiece && code.includes(piece))) return true;
    if (whole.length >= leastPiece) return joined.includes(whole);
    return kind === 'name' && whole !== '' && partsOf(code).includes(whole);
  });
}

/** As a code can have it, which is of plain letters: `Ölwin` as `olwin` and as `oelwin`. */
function spellings(text: string): string[] {
  const small = text.normalize('NFC').toLowerCase();
  const bare = (word: string): string => word.replaceAll('ß', 'ss').normalize('NFKD').replaceAll(/\p{M}/gu, '');
  const spelled = small.replaceAll(/[äöü]/g, (letter) => `${bare(letter)}e`);
  return [...new Set([bare(small), bare(spelled)])];
}

const lettersOf = (text: string): string => text.replaceAll(/[^\p{L}\p{N}]/gu, '');

const partsOf = (code: string): readonly string[] => code.match(/[a-z]+|\d+/g) ?? [];

const digitsIn = (code: string): readonly string[] => code.match(/\d+/g) ?? [];

/** The last four digits are what people take for short; of others five. */
const isOfNumber = (digits: string, number: string): boolean =>
  digits.length >= 4 && (digits.length >= 5 ? number.includes(digits) : number.endsWith(digits));

/** A date as people write it into a code; a year alone is none. */
function datesAsDigits(written: string): string[] {
  const [year, month, day] = written.split('-');
  if (!readDate(written) || year === undefined || month === undefined) return [];
  if (day === undefined) return [`${year}${month}`, `${month}${year}`];
  const short = year.slice(-2);
  return [year, short].flatMap((y) => [`${y}${month}${day}`, `${day}${month}${y}`, `${month}${day}${y}`]);
}
