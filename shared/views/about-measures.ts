import { t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { wordsFor } from '../findings/wording/wording.ts';
import { findHandMeasure } from '../measures/by-hand.ts';
import { findMeasure, measuresIn } from '../measures/registry.ts';
import { findLandmark } from '../notation/landmarks.ts';
import type { FilmSheet } from './film-sheet.ts';
import { setsFor, wantedIn } from './what-to-place.ts';

export { handSpreadWords } from '../measures/hand-spread.ts';

/** What a face may want to say beside the numbers of a sheet. */

const headings: Readonly<Record<string, string>> = spoken({
  angles: 'Angles',
  depth: 'Heights and depths',
  wall: 'Wall and bearing surface',
  bone: 'Bone lengths',
  ratios: 'Shares',
  shoe: 'Shoe',
  front: 'From the front',
  solar: 'From below',
});

/** The heading under which a table shows a measure. */
export function familyHeading(measure: string): string {
  if (findHandMeasure(measure)) return t('By hand alone');
  const family = findMeasure(measure)?.family ?? '';
  return headings[family] ?? family;
}

export function restsOn(measure: string, landmark: string): boolean {
  const needs: readonly string[] = findMeasure(measure)?.needs ?? [];
  return needs.includes(landmark);
}

/** What the trade calls a landmark; the name itself where it means nothing here. */
export function nameOf(landmark: string): string {
  return findLandmark(landmark)?.name ?? landmark;
}

/** What a landmark's name means; the name itself where it means nothing here. */
export function meaningOf(landmark: string): string {
  return findLandmark(landmark)?.doc ?? landmark;
}

/** The measures that may be wanted of a picture by themselves. */
export function measureChoices({
  view,
  foot,
}: Pick<FilmSheet, 'view' | 'foot'>): readonly { readonly name: string; readonly words: string }[] {
  return measuresIn(view).map((measure) => ({ name: measure.name, words: wordsFor(measure, foot) }));
}

/** What is wanted of a picture, in words: sets first, then single measures. */
export function wantedWords(
  sheet: Pick<FilmSheet, 'view' | 'kind' | 'foot'>,
  wanted: readonly string[],
): readonly string[] {
  const names = wantedIn(sheet, wanted);
  return [...setsFor(sheet), ...measureChoices(sheet)].flatMap(({ name, words }) =>
    names.includes(name) ? [words] : [],
  );
}
