import { courseCsv } from '../../../shared/export/course-csv.ts';
import type { CourseRow, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { fileNameOf } from '../take/file-name.ts';
import { staveDrawing } from '../take/stave-drawing.ts';
import { TakeRow } from '../take/take-row.tsx';

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

/** What can be taken along of a course: the stave as a picture or a drawing, the numbers as a table. */
export function SaveRow({ foot, whole, rows, stop, caseName, fileName, said }: SaveProps) {
  const { save } = useActions();
  const name = fileNameOf(caseName, foot.words, 'course');
  const csv = (): void =>
    save({ kind: 'csv', name, content: courseCsv([{ file: fileName, name: caseName, feet: [whole] }]) });
  return (
    <TakeRow
      name={name}
      draw={async () => ({ drawing: staveDrawing(foot, rows, caseName, stop), says: null })}
      more={[[t('Save numbers (CSV)'), csv]]}
      said={said}
    />
  );
}
