import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { CourseResult } from '../../shared/protocol/course.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';

/** The answer for a file that is not open. */
export const noCourse: CourseResult = { version: null, feet: [] };

export function course({ version }: TextDocument, inspection: Inspection): CourseResult {
  return { version, ...courseSheet(inspection) };
}
