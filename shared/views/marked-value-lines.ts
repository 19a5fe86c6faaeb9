import { say } from '../findings/wording/wording.ts';
import { t } from '../language/words.ts';
import type { MarkedValue } from '../lessons/marked-value.ts';
import { findMeasure } from '../measures/registry.ts';

/** What is read off the film and written down: what is off the key, what is missing, and what agrees. */
export function valueLines(values: readonly MarkedValue[]): string[] {
  const read = values.filter(({ student }) => student !== null);
  const agree = read.filter(({ agrees }) => agrees);
  const lacking = values.filter(({ student }) => student === null);
  return [
    ...read.filter(({ agrees }) => !agrees).map(valueLine),
    ...(lacking.length > 0 ? [t('    not read: {0}', wordsOf(lacking))] : []),
    ...(agree.length > 0 ? [t('    read as in the key: {0}', wordsOf(agree))] : []),
  ];
}

const wordsOf = (values: readonly MarkedValue[]): string =>
  values.map(({ measure }) => findMeasure(measure)?.words ?? measure).join('; ');

function valueLine({ measure, unit, key, student, tolerance }: MarkedValue): string {
  const words = findMeasure(measure)?.words ?? measure;
  const [mine, theirs] = [student ?? 0, key];
  if (theirs === null || tolerance === null)
    return t('    {0}, read as {1}: nobody can read it here, as the key does not give it', words, say(mine, unit));
  const [read, right] = [say(mine, unit), say(theirs, unit)];
  const [by, allowed] = [say(Math.abs(mine - theirs), unit), say(tolerance, unit)];
  return mine > theirs
    ? t('    {0}, read as {1}, in the key {2}: {3} too large; {4} are allowed', words, read, right, by, allowed)
    : t('    {0}, read as {1}, in the key {2}: {3} too small; {4} are allowed', words, read, right, by, allowed);
}
