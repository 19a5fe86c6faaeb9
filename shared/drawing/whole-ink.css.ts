import { AGREEMENT_RULES } from './agreement/agreement-ink.ts';
import { COURSE_RULES } from './course/course-ink.ts';
import { INK_CSS, themedInk } from './ink.css.ts';

/** For a page that may show any of the drawings. */
export const WHOLE_INK_CSS = INK_CSS + themedInk(COURSE_RULES + AGREEMENT_RULES);
