import type { FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { grouped } from '../../../shared/views/grouped.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { foldOnEscape } from '../layer-toggles.tsx';

interface MeasureChoiceProps {
  readonly foot: FootCourseSheet;
  readonly shown: readonly string[];
  /** Whether a person has chosen, so that the usual ones can be had again. */
  readonly isChosen: boolean;
}

/** Which measures stand on the stave. */
export function MeasureChoice({ foot: { rows }, shown, isChosen }: MeasureChoiceProps) {
  const { chooseCourse } = useActions();
  const turn = (measure: string): void =>
    chooseCourse({
      measures: shown.includes(measure) ? shown.filter((one) => one !== measure) : [...shown, measure],
    });
  return (
    <details class="choose" onKeyDown={foldOnEscape}>
      <summary>{t('Measures shown')}</summary>
      <div class="choose-list">
        {[...grouped(oneEach(rows), ({ family }) => family)].map(([family, own]) => (
          <fieldset key={family}>
            <legend>{family}</legend>
            {own.map(({ measure, words }) => (
              <label>
                <input type="checkbox" checked={shown.includes(measure)} onChange={() => turn(measure)} />
                {words}
              </label>
            ))}
          </fieldset>
        ))}
        {isChosen && (
          <button type="button" class="go" onClick={() => chooseCourse({ measures: null })}>
            {t('Only the first things')}
          </button>
        )}
      </div>
    </details>
  );
}

/** A measure that was taken in several ways is chosen once. */
function oneEach(rows: FootCourseSheet['rows']): FootCourseSheet['rows'] {
  return rows.filter(({ measure }, index) => rows.findIndex((one) => one.measure === measure) === index);
}
