import { useMemo, useRef, useState } from 'preact/hooks';
import { drawFourFeet } from '../../../shared/drawing/course/four-feet.ts';
import { sceneToSvg } from '../../../shared/drawing/svg.ts';
import type { CourseRow, CourseSheet } from '../../../shared/views/course-sheet.ts';
import { fourFeetOf } from '../../../shared/views/course-stave.ts';
import { t } from '../../../shared/language/words.ts';
import { usePaneWidth } from '../pane-width.ts';

interface FeetProps {
  readonly course: CourseSheet;
  readonly rows: readonly CourseRow[];
}

/** One measure on all feet, side by side on the same scales; nothing where fewer than two feet have one of the measures. */
export function FourFeetView({ course, rows }: FeetProps) {
  const [chosen, setChosen] = useState<string | null>(null);
  const shared = rows.filter(
    ({ measure }, index) =>
      rows.findIndex((one) => one.measure === measure) === index && fourFeetOf(course, measure, 1) !== null,
  );
  const row = shared.find(({ measure }) => measure === chosen) ?? shared[0];
  if (!row) return null;
  return (
    <section aria-labelledby="four-feet">
      <h2 id="four-feet">{t('The same on each foot')}</h2>
      <label class="which">
        {t('Measure')}{' '}
        <select value={row.measure} onChange={({ currentTarget }) => setChosen(currentTarget.value)}>
          {shared.map(({ measure, words }) => (
            <option key={measure} value={measure}>
              {words}
            </option>
          ))}
        </select>
      </label>
      <Panels course={course} measure={row.measure} />
    </section>
  );
}

function Panels({ course, measure }: { readonly course: CourseSheet; readonly measure: string }) {
  const holder = useRef<HTMLDivElement>(null);
  const width = usePaneWidth(holder);
  const drawn = useMemo(() => {
    const input = width > 0 ? fourFeetOf(course, measure, width) : null;
    return input ? sceneToSvg(drawFourFeet(input)) : '';
  }, [course, measure, width]);
  // Our own drawing: every text in it was escaped when it was made.
  return <div ref={holder} class="four-feet" dangerouslySetInnerHTML={{ __html: drawn }} />;
}
