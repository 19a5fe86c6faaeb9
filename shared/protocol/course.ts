import type { CourseSheet } from '../views/course-sheet.ts';

/** Params: `CourseParams`. Answer: `CourseResult`. Computed when it is asked for, and for nobody else. */
export const courseRequest = 'ungula/course';

export interface CourseParams {
  readonly textDocument: { readonly uri: string };
}

export interface CourseResult extends CourseSheet {
  /** Version of the document that the course is of; null for a file that is not open. */
  readonly version: number | null;
}
