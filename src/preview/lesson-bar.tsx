import type { LessonSheet } from '../../shared/views/lesson-sheet.ts';
import { counted, t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';

/** Above a lesson's film: what is kept back and the way to the key, then how the whole stands to it. */
export function LessonBar({ lesson }: { readonly lesson: LessonSheet }) {
  const { showKey } = useActions();
  const { isShown, says } = lesson;
  return (
    <div class="lesson-bar" role="status">
      <p>{isShown ? shownWords(lesson) : hiddenWords(lesson)}</p>
      {says !== null && <p class="picture-says">{says}</p>}
      <button type="button" class="lesson-key" onClick={() => showKey(!isShown)}>
        {isShown ? t('Hide the key') : t('Show the key')}
      </button>
    </div>
  );
}

function hiddenWords({ key, placed }: LessonSheet): string {
  const lesson = t(
    'A lesson, held against {0}. Until you show the key, values, findings and proposals are kept back.',
    key,
  );
  if (placed === 0) return `${lesson} ${t('Nothing is placed yet.')}`;
  return `${lesson} ${counted(placed, 'One landmark is placed.', '{0} landmarks are placed.')}`;
}

function shownWords({ marks, says }: LessonSheet): string {
  if (marks) return marks.summary;
  return says === null ? t('The key is being read.') : t('There is nothing to hold the places against.');
}
