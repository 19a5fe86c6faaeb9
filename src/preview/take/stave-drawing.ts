import { drawStave, withCursor } from '../../../shared/drawing/course/stave.ts';
import { alone, usualWidth, type Drawing } from '../../../shared/drawing/alone.ts';
import type { CourseRow, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { staveOf } from '../../../shared/views/course-stave.ts';

/** The stave as a drawing that stands alone, ink on paper whatever the editor's theme, with the cursor where it is. */
export function staveDrawing(
  foot: FootCourseSheet,
  rows: readonly CourseRow[],
  caseName: string,
  stop: number,
): Drawing {
  const stave = drawStave(staveOf(foot, rows, { width: usualWidth.course, caseName, alone: true }));
  return alone(withCursor(stave, stop), { width: usualWidth.course });
}
