import type { CourseRow, FootCourseSheet } from '../views/course-sheet.ts';
import { stopsOf } from '../views/course-stave.ts';

/** Days with films that are shown of one foot: one a week for nearly 20 years. More strokes than pixels say nothing. */
export const mostDays = 1000;

/** The course of a foot as it is shown: of its newest days only where there are too many. What is computed of all films stays. */
export function newestDays(foot: FootCourseSheet, most = mostDays): FootCourseSheet {
  const first = stopsOf(foot).at(-most);
  if (!first || first.day === stopsOf(foot)[0]?.day) return foot;
  const isShown = ({ day }: { readonly day: number }): boolean => day >= first.day;
  return {
    ...foot,
    films: foot.films.filter(isShown),
    others: foot.others.filter(isShown),
    trims: foot.trims.filter(isShown),
    rows: foot.rows.map((row) => newestPoints(row, isShown)),
  };
}

/** Points stand in the order of their days, so that those left out are the first. */
function newestPoints(row: CourseRow, isShown: (point: { readonly day: number }) => boolean): CourseRow {
  const points = row.points.filter(isShown);
  const out = row.points.length - points.length;
  return {
    ...row,
    points,
    changes: row.changes
      .filter(({ from }) => from >= out)
      .map((change) => ({ ...change, from: change.from - out, to: change.to - out })),
  };
}
