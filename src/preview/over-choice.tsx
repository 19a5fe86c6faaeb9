import { filmOver, normalOver, whyNoNormal, type LaidOver } from '../../shared/views/laid-over.ts';
import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import type { SheetsMessage } from '../messages/messages.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { filmKey, filmOf, type ListedFilm } from '../../shared/views/film-choice.ts';

/** What a person chose who lays a normal foot over the plate. */
export const NORMAL = 'normal';

/** The foot that is laid over a film; null where none is chosen, or the chosen film is gone or is this one. Until a film comes the one before stays. */
export function overOn(
  sheet: FilmSheet,
  chosen: string | null,
  { films, over, animal }: Pick<SheetsMessage, 'films' | 'over' | 'animal'>,
): LaidOver | null {
  if (chosen === null) return null;
  if (chosen === NORMAL) return normalOver(sheet, animal);
  const isOther = chosen !== filmKey(sheet) && filmOf(films, chosen) !== null;
  return isOther && over && filmKey(over) !== filmKey(sheet) ? filmOver(sheet, over) : null;
}

interface OverChoiceProps {
  readonly sheet: FilmSheet;
  readonly films: readonly ListedFilm[];
  readonly chosen: string | null;
  readonly animal: SheetsMessage['animal'];
}

/** A list of the feet that can be laid over: a normal one where there is one of the animal's kind, then the other lateral films, those of this foot first. */
export function OverChoice({ sheet, films, chosen, animal }: OverChoiceProps) {
  const { layOver } = useActions();
  if (sheet.view !== 'lateral') return null;
  const others = films.filter((one) => one.view === 'lateral' && filmKey(one) !== filmKey(sheet));
  const offered = whyNoNormal(animal) === null;
  const sorted = [
    ...others.filter(({ foot }) => foot === sheet.foot),
    ...others.filter(({ foot }) => foot !== sheet.foot),
  ];
  return (
    <label class="over-choice">
      {t('Lay over')}{' '}
      <select
        value={chosen === null || (chosen === NORMAL && !offered) ? '' : chosen}
        onChange={({ currentTarget: { value } }) => layOver(value === '' ? null : value)}
      >
        <option value="">{t('nothing')}</option>
        {offered && <option value={NORMAL}>{t('a normal foot of this size')}</option>}
        {sorted.map((one) => (
          <option value={filmKey(one)}>{one.title}</option>
        ))}
      </select>
    </label>
  );
}

interface NotesProps {
  readonly laid: LaidOver | null;
  readonly sheet: FilmSheet;
  readonly animal: SheetsMessage['animal'];
}

/** Below the plate: why nothing is laid over or no normal foot is offered, or what the foot that is laid over stands on. */
export function OverNotes({ laid, sheet, animal }: NotesProps) {
  const why = whyNoNormal(animal);
  if (!laid) return why !== null && sheet.view === 'lateral' ? <p class="aside">{why}</p> : null;
  if (laid.says !== null) return <p class="picture-says">{laid.says}</p>;
  return (
    <>
      <p class="aside">
        {t(
          '{0}, dashed: laid over by the coffin joint and the axis of P2. Between the two the difference is hatched.',
          laid.over.words,
        )}
      </p>
      {laid.rests.length > 0 && (
        <details class="sources">
          <summary>{t('What the normal foot stands on')}</summary>
          <ul>
            {laid.rests.map((line) => (
              <li>{line}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
