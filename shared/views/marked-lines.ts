import { sayChoice } from '../language/choice-words.ts';
import { fixed } from '../language/figures.ts';
import type { MarkedStudent } from '../export/marked.ts';
import { footWords, say } from '../findings/wording/wording.ts';
import { counted, t } from '../language/words.ts';
import type { ClassMissed, ClassTally } from '../lessons/class-tally.ts';
import type { MarkedFilm } from '../lessons/marked-case.ts';
import type { MarkedMeasure, MarkedPoint, MarkedReading, PointOff } from '../lessons/marked-reading.ts';
import { isOtherScale, isTurned } from '../lessons/off-key.ts';
import { findMeasure } from '../measures/registry.ts';
import { nameOfLandmark } from './landmark-names.ts';
import { planLines } from './marked-plan-lines.ts';
import { unplacedLines } from './unplaced-lines.ts';
import { valueLines } from './marked-value-lines.ts';

/** What `mark` says of one student: where the places lie that do not agree with the key, the furthest first, and what follows from them. */
export function studentLines({ file, films }: MarkedStudent): string[] {
  const there = films.filter((film) => film.there);
  if (there.length === 0) return [`${file}:`, t('  none of the films of the key is in it'), ''];
  return [`${file}:`, ...there.flatMap(filmLines), ''];
}

function filmLines({ foot, view, picture, marked, values, plans }: MarkedFilm): string[] {
  const title = `  ${footWords[foot]}, ${sayChoice(view)}, ${picture}`;
  return [...placeLines(title, marked), ...valueLines(values), ...planLines(plans)];
}

function placeLines(title: string, marked: MarkedReading | null): string[] {
  if (!marked) return [t('{0}: nothing is placed on it', title)];
  const { points, measures } = marked;
  const placed = points.filter(({ off }) => off !== null);
  const agree = points.filter(({ agrees }) => agrees);
  const lacking = points.filter(({ off }) => off === null);
  const off = placed.filter(({ agrees }) => !agrees).toSorted((a, b) => distanceOf(b) - distanceOf(a));
  const clear = measures.filter(({ agrees, student }) => !agrees && student !== null);
  return [
    t('{0}: {1} of {2} places agree with the key{3}', title, agree.length, points.length, middleWords(placed)),
    ...off.map(pointLine),
    ...(lacking.length > 0 ? [notPlaced(lacking)] : []),
    ...(marked.beyondKey.length > 0
      ? [t('    placed, and not in the key: {0}', marked.beyondKey.map(nameOfLandmark).join(', '))]
      : []),
    ...unplacedLines(marked),
    ...lineWords(marked),
    ...clear.map(measureLine),
  ];
}

/** The first few by name: of a film that is hardly begun nobody reads them all. */
function notPlaced(lacking: readonly MarkedPoint[]): string {
  const [named, more] = [lacking.slice(0, FEW), lacking.length - FEW];
  const names = named.map(({ landmark }) => nameOfLandmark(landmark)).join('; ');
  return more > 0 ? t('    not placed: {0}; and {1} more', names, more) : t('    not placed: {0}', names);
}

const FEW = 6;

const distanceOf = ({ off }: MarkedPoint): number => off?.distance ?? 0;

/** The median distance of what is placed, so that one slip does not stand for all. */
export function middleWords(placed: readonly MarkedPoint[]): string {
  const all = placed.map(distanceOf).toSorted((a, b) => a - b);
  const middle = all[Math.floor(all.length / 2)];
  const [first] = placed;
  if (middle === undefined || !first) return '';
  return t('; half of them lie within {0}', length(middle, first.unit));
}

function pointLine({ landmark, off, tolerance, unit }: MarkedPoint): string {
  if (!off) return '';
  const told = length(off.distance, unit);
  const ways = wayWords(off, unit);
  return ways === ''
    ? t('    {0}: {1} off, where {2} are allowed', nameOfLandmark(landmark), told, length(tolerance, unit))
    : t('    {0}: {1} off, {2}; {3} are allowed', nameOfLandmark(landmark), told, ways, length(tolerance, unit));
}

/** Which way it lies from the key's place. */
export function wayWords({ toToe, up }: PointOff, unit: 'mm' | 'px'): string {
  if (toToe === null || up === null) return '';
  const along = toToe > 0 ? t('{0} too far to the toe', length(toToe, unit)) : t('{0} too far to the heel', length(-toToe, unit)); // prettier-ignore
  const upright = up > 0 ? t('{0} too high', length(up, unit)) : t('{0} too low', length(-up, unit));
  const [more, less] = Math.abs(toToe) >= Math.abs(up) ? [along, upright] : [upright, along];
  // What is a small part of it only hides which way it is.
  return Math.min(Math.abs(toToe), Math.abs(up)) < 0.35 * Math.max(Math.abs(toToe), Math.abs(up))
    ? more
    : t('{0} and {1}', more, less);
}

/** Told where they are enough to move the measures: half a degree, one per cent. A judgement of ours. */
export function lineWords({ groundTurned, scaleRatio }: Pick<MarkedReading, 'groundTurned' | 'scaleRatio'>): string[] {
  const turned = groundTurned ?? 0;
  const larger = ((scaleRatio ?? 1) - 1) * 100;
  return [
    ...(!isTurned(groundTurned)
      ? []
      : [
          t(
            '    the ground line is turned by {0} against the key’s, and every angle to the ground with it',
            say(Math.abs(turned), 'deg'),
          ),
        ]),
    ...(!isOtherScale(scaleRatio)
      ? []
      : [
          larger > 0
            ? t('    by its scale every length is {0} longer than by the key’s', say(larger, '%'))
            : t('    by its scale every length is {0} shorter than by the key’s', say(-larger, '%')),
        ]),
  ];
}

function measureLine({ measure, unit, key, student, tolerance }: MarkedMeasure): string {
  const words = findMeasure(measure)?.words ?? measure;
  const [mine, theirs] = [say(student ?? key, unit), say(key, unit)];
  const [by, allowed] = [say(Math.abs((student ?? key) - key), unit), say(tolerance, unit)];
  return (student ?? key) > key
    ? t('    {0}: {1}, in the key {2}: {3} too large; {4} are allowed', words, mine, theirs, by, allowed)
    : t('    {0}: {1}, in the key {2}: {3} too small; {4} are allowed', words, mine, theirs, by, allowed);
}

/** Of a class: what was missed most often, so that a teacher sees what to show again. */
export function classLines(tally: ClassTally): string[] {
  if (tally.students < 2) return [];
  const { points, values, plans } = tally;
  const lines = [
    ...points.map(({ landmark, ...row }) => missedLine(nameOfLandmark(landmark), row)),
    ...values.map(({ measure, ...row }) => missedLine(t('{0}, as read', findMeasure(measure)?.words ?? measure), row)),
    ...(plans.missed > 0
      ? [t('  the plan: off the key in {0} of {1}, a limit broken in {2}', plans.missed, plans.of, plans.broken)]
      : []),
  ];
  return [
    t('The class, {0}:', counted(tally.students, 'one file', '{0} files')),
    ...(lines.length === 0 ? [t('  every place that was put agrees with the key')] : lines),
  ];
}

const missedLine = (words: string, { missed, of }: ClassMissed): string =>
  t('  {0}: missed in {1} of {2}', words, missed, of);

/** `5.0 mm`. */
export const length = (value: number, unit: 'mm' | 'px'): string => `${fixed(value, 1)} ${unit}`;
