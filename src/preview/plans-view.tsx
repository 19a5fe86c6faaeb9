import { useMemo } from 'preact/hooks';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { t } from '../../shared/language/words.ts';
import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import type { LessonSheet } from '../../shared/views/lesson-sheet.ts';
import { planScenes, plansBeside } from '../../shared/views/plans-beside.ts';
import { BeforeAndAfter } from './cuts-view.tsx';

export interface PlansProps {
  readonly sheet: FilmSheet;
  /** With the one that is tried as it would come out. */
  readonly cuts: FilmSheet['cuts'];
  readonly lesson: LessonSheet | null;
}

/** Plans of one film beside each other, at one scale; where there is no room for two, below each other. */
export function PlansView({ sheet, cuts, lesson }: PlansProps) {
  const plans = useMemo(() => plansBeside({ ...sheet, cuts }, lesson), [sheet, cuts, lesson]);
  // Our own drawings: every text in them was escaped when they were made.
  const drawn = useMemo(() => planScenes(plans).map((scene) => sceneToSvg(scene)), [plans]);
  if (plans.length === 0) return null;
  return (
    <section aria-labelledby="plans-beside">
      <h2 id="plans-beside">{t('Plans side by side')}</h2>
      <div class="plans-beside">
        {plans.map(({ title, cut }, index) => (
          <article key={title}>
            <h3>{title}</h3>
            <div class="plan-ink" dangerouslySetInnerHTML={{ __html: drawn[index] ?? '' }} />
            <p class={cut.broken.length > 0 ? 'breaks' : undefined}>
              {cut.broken.length > 0 ? t('Breaks a limit: {0}.', cut.broken.join('; ')) : t('Keeps every limit.')}
            </p>
            {cut.rows.length > 0 && <BeforeAndAfter rows={cut.rows} />}
          </article>
        ))}
      </div>
    </section>
  );
}
