import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { codes } from '../../shared/findings/catalogue.ts';
import type { WordTable } from '../../shared/language/words.ts';
import { handMeasures } from '../../shared/measures/by-hand.ts';
import { measureNames } from '../../shared/measures/registry.ts';
import { everyWord, sexes } from '../../shared/notation/vocabulary.ts';
import { views } from '../../shared/notation/landmarks.ts';
import { sources } from '../../shared/reference/sources.ts';

/** A language in which every sentence stands in double brackets, its values between them, so that they are looked at too. */
export function madeUpLanguage(): WordTable {
  const file = join(import.meta.dirname, '..', '..', 'l10n', 'bundle.l10n.json');
  const english = JSON.parse(readFileSync(file, 'utf8')) as Record<string, string>;
  return Object.fromEntries(Object.keys(english).map((key) => [key, `⟪${key.replaceAll(/\{\d+\}/g, '⟫$&⟪')}⟫`]));
}

const notation = everyWord();

/** Words of the notation that a face shows as the case has them: kinds and views of pictures, animals, what was found where. */
const notationWords = [
  'lateral film',
  'front film',
  'solar film',
  'lateral photo',
  'front photo',
  'solar photo',
  'Venogram',
  'TRH',
  'Skyline',
  'Heel film',
  'horse mare',
  'horse gelding',
  'pony mare',
  'pony gelding',
  'donkey jenny',
  'pony',
  'donkey',
  'mule',
  'hinny',
  'horse',
  'Insulin',
  'ACTH',
  'Glucose',
  'Triglycerides',
  'Adiponectin',
  'Wall',
  'Rings',
  ...sexes,
];

/** Whole names that are the same in every language. */
const names = [
  ...codes.map(({ code }) => code),
  ...measureNames(),
  ...handMeasures.map(({ name }) => name),
  ...notation.landmarks,
  // A citation is what it is in any language, and so are its authors alone.
  ...Object.values(sources).flatMap(({ cite, ...rest }) => [
    cite,
    cite.split(/,|: /)[0] ?? '',
    'short' in rest ? rest.short : '',
  ]),
  ...notationWords,
].filter((name) => name !== '');

/** The longest first, as one may begin another. */
const anyOf = (texts: readonly string[]): RegExp =>
  new RegExp(
    texts
      .toSorted((a, b) => b.length - a.length)
      .map((one) => one.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&'))
      .join('|'),
    'g',
  );

/** Words of the notation stay what they are wherever they stand, as whole words. */
const ofNotation: ReadonlySet<string> = new Set([
  ...Object.values(notation).flat(),
  ...views,
  'check',
  'measure',
  'plan',
  'course',
  'report',
  'format',
  'serve',
]);

/** Units, and what is written with figures. */
const units =
  /(?<=[\d.)] ?)(?:mm|cm|px|kg|hh|deg|days?|weeks?|months?|u?µ?IU\/mL|pmol\/L|pg\/mL|[a-zµ]+\/d?[LlmM]+|C|F)(?!\p{L})/gu;

/**
 * The words of a text that are in no language but English.
 *
 * @param own texts of the case, which stay what they are, and words of the notation that stand there
 */
export function englishIn(said: string, own: readonly string[] = []): string[] {
  // What was written stands in quotes; a form in a fence is notation, and a usage line is what is typed.
  let left = said
    .replaceAll(/```[^]*?```/gu, ' ')
    .replaceAll(/«⟫?[^⟪⟫«»]*⟪?»/gu, ' ')
    .replaceAll(/ungula [a-z]+(?: [^⟪⟫\n]*)?/gu, ' ')
    .replaceAll(/µIU\/mL|uIU\/mL|pg\/mL|mmol\/L|nmol\/L/gu, ' ');
  for (let before = ''; before !== left;) {
    before = left;
    left = left.replaceAll(/⟪[^⟪⟫]*⟫/gu, ' ');
  }
  // Words of a drawing are broken into lines, so that a bracket may stand in the next one.
  left = left.replaceAll(/⟪[^⟫]*$|^[^⟪]*⟫/gu, ' ');
  if (!/\p{L}{2}/u.test(left)) return [];
  left = left.replaceAll(anyOf([...own.filter((one) => one.length > 2), ...names]), ' ');
  left = left.replaceAll(/«[^«»]*»|`[^`]*`|“[^“”]*”|"[^"]*"/gu, ' ').replaceAll(units, ' ');
  return (
    left
      .match(/\p{L}{2,}/gu)
      ?.filter((word) => !/^(?:LF|RF|LH|RH|mm|px|kg|cm|deg|MB|IU)$/.test(word) && !ofNotation.has(word)) ?? []
  );
}

/** What a case says in words of its own: its texts in quotes, its prose, its remarks. */
export function textsOf(text: string): string[] {
  const quoted = [...text.matchAll(/"((?:[^"\\\n]|\\.)*)"/g)].map(([, words = '']) =>
    words.replaceAll(/\\(["\\])/g, '$1'),
  );
  const prose = [...text.matchAll(/^\s*\|\s?(.*)$/gm)].map(([, words = '']) => words);
  // A page writes the apostrophe as printers do.
  return [...quoted, ...prose].flatMap((one) => [one, one.replaceAll("'", '’')]);
}
