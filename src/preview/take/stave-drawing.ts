import { drawStave, withCursor } from '../../../shared/drawing/course/stave.ts';
import { sceneToSvg } from '../../../shared/drawing/svg.ts';
import type { CourseRow, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { staveOf } from '../../../shared/views/course-stave.ts';
import type { Drawing } from './picture.ts';

/** As wide as a page of a letter takes it. */
const WIDTH = 1000;

/** The stave as a drawing that stands alone, ink on paper whatever the editor's theme, with the cursor where it is. */
export function staveDrawing(
  foot: FootCourseSheet,
  rows: readonly CourseRow[],
  caseName: string,
  stop: number,
): Drawing {
  const stave = drawStave(staveOf(foot, rows, { width: WIDTH, caseName, alone: true }));
  const scene = withCursor(stave, stop);
  const { width, height } = scene.view;
  return { svg: sceneToSvg(scene, { standalone: true, width, height }), width, height };
}
