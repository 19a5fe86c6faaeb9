import type { Study } from '../trim/study.ts';
import type { Finding } from './finding.ts';

/**
 * What rests on places and values, by the first part of its code. In a lesson it would tell the answer before the student has given one:
 * that a foot is out of its range, that two landmarks are exchanged, that a cut goes into live sole.
 */
const ofPlaces: ReadonlySet<string> = new Set([
  'landmark',
  'range',
  'course',
  'alignment',
  'trim',
  'expect',
  'shoe',
  'scale',
]);

/** Of these what rests on the animal and the day alone: how lame it is, whether the vet agrees, how old a film is. */
const ofTheDay: ReadonlySet<string> = new Set(['trim/no-vet', 'trim/film-age']);

/** Whether a finding is kept back from a student until the key is shown. What is told of the writing, the animal and the day stays. */
export function isWithheld({ code }: Pick<Finding, 'code'>): boolean {
  if (ofTheDay.has(code)) return false;
  return code === 'tape/disagrees' || ofPlaces.has(code.slice(0, code.indexOf('/')));
}

/** Whether a case is a lesson, so that things are kept back. */
export function isLesson({ record }: Pick<Study, 'record'>): boolean {
  return record.animal?.is.key != null;
}

/** What is told beside the text; of a lesson all of it once the key of each film is shown. */
export function toldInText(
  study: Pick<Study, 'record'>,
  findings: readonly Finding[],
  isShown: boolean,
): readonly Finding[] {
  return isShown || !isLesson(study) ? findings : findings.filter((finding) => !isWithheld(finding));
}
