import { courseCsv } from '../../../shared/export/course-csv.ts';
import type { CourseRow, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { fileNameOf } from './file-name.ts';
import { base64Of, drawingOf, pngOf } from './picture.ts';

interface SaveProps {
  readonly foot: FootCourseSheet;
  /** The same with every day, for the table of numbers. */
  readonly whole: FootCourseSheet;
  readonly rows: readonly CourseRow[];
  readonly stop: number;
  readonly caseName: string;
  readonly fileName: string;
  readonly said: string | null;
}

const noCopy = t('This editor does not let a page copy pictures. Save the picture instead.');

/** What can be taken along: the stave as a picture or a drawing, the numbers as a table. */
export function SaveRow({ foot, whole, rows, stop, caseName, fileName, said }: SaveProps) {
  const { save, say } = useActions();
  const name = fileNameOf(caseName, foot.words, 'course');
  const drawing = () => drawingOf(foot, rows, caseName, stop);
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.write([new ClipboardItem({ 'image/png': pngOf(drawing()) })]);
      say(t('The picture is copied.'));
    } catch {
      say(noCopy);
    }
  };
  const savePng = async (): Promise<void> => {
    try {
      save({ kind: 'png', name, content: await base64Of(await pngOf(drawing())) });
    } catch {
      say(t('The picture could not be made. Save the drawing (SVG) instead.'));
    }
  };
  const ways: readonly (readonly [string, () => void])[] = [
    [t('Copy as picture'), () => void copy()],
    [t('Save picture (PNG)'), () => void savePng()],
    [t('Save drawing (SVG)'), () => save({ kind: 'svg', name, content: drawing().svg })],
    [
      t('Save numbers (CSV)'),
      () => save({ kind: 'csv', name, content: courseCsv([{ file: fileName, name: caseName, feet: [whole] }]) }),
    ],
  ];
  return (
    <p class="save-row">
      {ways.map(([words, act]) => (
        <button key={words} type="button" class="go" onClick={act}>
          {words}
        </button>
      ))}
      <span role="status">{said}</span>
    </p>
  );
}
