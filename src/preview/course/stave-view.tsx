import { shownDate } from '../../../shared/language/dates.ts';
import { useMemo, useRef } from 'preact/hooks';
import { drawStave } from '../../../shared/drawing/course/stave.ts';
import { drawingMenu } from '../take/drawing-menu.ts';
import { sceneToSvg } from '../../../shared/drawing/svg.ts';
import type { CourseRow, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { staveOf, stopsOf } from '../../../shared/views/course-stave.ts';
import { t } from '../../../shared/language/words.ts';
import { nearestStop, steppedStop } from '../cursor-stop.ts';
import { usePaneWidth } from '../pane-width.ts';
import { clearWord } from './trend-table.tsx';

interface StaveProps {
  readonly foot: FootCourseSheet;
  readonly rows: readonly CourseRow[];
  readonly caseName: string;
  /** Where the cursor stands among the days with films. */
  readonly stop: number;
  onStop(stop: number): void;
  /** The day at the cursor was pressed. */
  onPress(stop: number): void;
}

/** The stave with its cursor: hover or the arrow keys move it, a click or Enter goes to the film of that day. */
export function StaveView({ foot, rows, caseName, stop, onStop, onPress }: StaveProps) {
  const holder = useRef<HTMLDivElement>(null);
  const width = usePaneWidth(holder);
  const stave = useMemo(
    () => (width > 0 ? drawStave(staveOf(foot, rows, { width, caseName, alone: false })) : null),
    [foot, rows, width, caseName],
  );
  // Our own drawings: every text in them was escaped when they were made.
  const drawn = useMemo(() => (stave ? sceneToSvg(stave.scene) : ''), [stave]);
  const cursor = useMemo(() => (stave ? sceneToSvg(stave.cursor(stop), { classes: ['overlay'] }) : ''), [stave, stop]);
  const stops = stopsOf(foot);
  const at = ({ offsetX }: MouseEvent): number => nearestStop(stave?.stops ?? [], offsetX);
  return (
    <div
      ref={holder}
      class="stave"
      data-vscode-context={drawingMenu}
      role="slider"
      tabIndex={0}
      aria-label={foot.others.length > 0 ? t('Day') : t('Day with films')}
      aria-orientation="horizontal"
      aria-valuemin={1}
      aria-valuemax={stops.length}
      aria-valuenow={stop + 1}
      aria-valuetext={reading(stops[stop]?.date ?? '', stops[stop]?.day ?? 0, rows)}
      aria-description={t('Arrow keys move from film to film; Enter goes to the film in the text.')}
      onPointerMove={(event) => {
        const to = at(event);
        if (to !== stop) onStop(to);
      }}
      onClick={(event) => onPress(at(event))}
      onKeyDown={(event) => {
        if (event.key === 'Enter') return onPress(stop);
        const to = steppedStop(event.key, stop, stops.length);
        if (to === null) return;
        event.preventDefault();
        onStop(to);
      }}
    >
      <div class="stave-ink" aria-hidden="true" dangerouslySetInnerHTML={{ __html: drawn }} />
      <div class="stave-ink" aria-hidden="true" dangerouslySetInnerHTML={{ __html: cursor }} />
    </div>
  );
}

/** What the cursor reads, in words. */
function reading(date: string, day: number, rows: readonly CourseRow[]): string {
  const said = rows.flatMap(({ words, sourceWords, points, changes }) => {
    const index = points.findLastIndex((point) => point.day === day);
    const point = points[index];
    if (!point) return [];
    const change = changes.find(({ to }) => to === index);
    return [
      `${words}${sourceWords ? ` ${sourceWords}` : ''} ${point.text}${change ? `, ${change.text} ${clearWord(change)}` : ''}`,
    ];
  });
  return `${shownDate(date)}: ${said.join('; ')}`;
}
