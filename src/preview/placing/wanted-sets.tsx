import type { FilmSheet } from '../../../shared/views/film-sheet.ts';
import { setsFor, wantedIn } from '../../../shared/views/what-to-place.ts';
import { measureChoices, wantedWords } from '../../../shared/views/about-measures.ts';
import { t } from '../../../shared/language/words.ts';
import { Toggle } from '../toggles.tsx';
import type { PlacingModel } from './placing-model.ts';

/** What somebody wants to know of the film; what has to be placed follows from it. */
export function WantedSets({ model, sheet }: { readonly model: PlacingModel; readonly sheet: FilmSheet }) {
  const wanted = wantedIn(sheet, model.state.wanted);
  const sets = setsFor(sheet);
  const toggle = (name: string, words: string) => (
    <Toggle key={name} pressed={wanted.includes(name)} onPress={() => model.want(sheet, name)}>
      {words}
    </Toggle>
  );
  return (
    <details class="wanted">
      <summary>
        {t('Wanted:')} <em>{wantedWords(sheet, wanted).join(', ')}</em>
      </summary>
      <div class="toggles" role="group" aria-label={t('Sets of measures')}>
        {sets.map(({ name, words }) => toggle(name, capital(words)))}
      </div>
      <details>
        <summary>{t('Single measures')}</summary>
        <div class="toggles" role="group" aria-label={t('Single measures')}>
          {measureChoices(sheet).map(({ name, words }) => toggle(name, capital(words)))}
        </div>
      </details>
    </details>
  );
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
