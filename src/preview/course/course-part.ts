import { COURSE_RULES } from '../../../shared/drawing/course/course-ink.ts';
import { themedInk } from '../../../shared/drawing/ink.css.ts';
import { adoptInk } from '../adopt-ink.ts';
import { CourseView } from './course-view.tsx';

/** The course with the ink of its drawings. */
export function coursePart(): typeof CourseView {
  adoptInk(themedInk(COURSE_RULES));
  return CourseView;
}
