import { t } from '../language/words.ts';
import type { Inspection } from '../findings/inspect.ts';
import { sayDate } from '../findings/wording/say-day.ts';
import { footWords, say, sayWithSpread, sentence, wordsFor } from '../findings/wording/wording.ts';
import type { FootName } from '../notation/choices.ts';
import { LineMap } from '../notation/line-map.ts';
import type { StudiedFilm, StudiedReading, Study } from '../trim/study.ts';
import { alarmsOf, alarmsOpen } from './alarms.ts';
import { cutWords } from './film-sheet.ts';
import { openPlan } from './open-plan.ts';

/** How a foot stands, where there is room for five words. */
export interface FootAtCursor {
  /** Null where an alarm is open and no foot is known. */
  readonly foot: FootName | null;
  /** `LF palmar angle 5.9°, sole 14 mm`; while an alarm of the case is open, that: `An alarm is open, line 22`. */
  readonly says: string;
  /** The same at more length, a line each. */
  readonly about: readonly string[];
  readonly isAlarm: boolean;
  /** Of its newest film, or of the gravest alarm, from 0. */
  readonly line: number;
}

/**
 * Of the foot at an offset of the text: by its newest lateral film that is measured. An alarm of the case is told whether or not there is
 * such a film; without either it is null. `keepsBack`: a lesson, of which no value is told; alarms that rest on none, such as a sign
 * for the vet, are.
 */
export function footStateAt(offset: number, inspection: Inspection, keepsBack = false): FootAtCursor | null {
  const { study, tree } = inspection;
  const alarms = alarmsOf(inspection, keepsBack);
  const [gravest] = alarms;
  const foot = footAt(offset, study);
  const film = foot && newestMeasured(foot, study);
  const told = foot && film && !keepsBack ? measuredWords(foot, film, study) : null;
  if (gravest)
    return {
      foot,
      // An alarm is the case's: it may be of another foot.
      says: sentence(alarmsOpen(alarms)),
      about: [...alarms.map(({ message }) => message), ...(told?.about ?? [])],
      isAlarm: true,
      line: gravest.line,
    };
  if (!foot || !film || !told) return null;
  const line = new LineMap(tree.text).at(film.visit.start + film.film.head.start).line;
  return { foot, ...told, isAlarm: false, line };
}

function measuredWords(foot: FootName, film: StudiedFilm, study: Study): Pick<FootAtCursor, 'says' | 'about'> {
  const values = film.readings.find(tells)?.taking.values;
  const angle = values?.get('palmar-angle');
  const sole = values?.get('sole-depth.tip');
  const plan = openPlan(foot, study);
  const short = [
    angle && `${wordsFor(angle.measure, foot)} ${say(angle.value, angle.unit)}`,
    sole && t('sole {0}', say(sole.value, sole.unit)),
  ].filter((part) => part !== undefined);
  const day = film.film.taken ?? film.visit.is.date;
  return {
    says: `${foot} ${short.join(', ')}`,
    about: [
      day === null ? sentence(footWords[foot]) : t('{0}, film of {1}', sentence(footWords[foot]), sayDate(day)),
      ...[angle, sole].flatMap((value) => (value ? `${wordsFor(value.measure, foot)} ${sayWithSpread(value)}` : [])),
      ...(plan ? [t('A plan is open: {0}.', cutWords(plan))] : []),
    ],
  };
}

/** The foot of the block at the offset; in a visit outside every block, and outside the visits, that of the newest film before. */
function footAt(offset: number, { films, cuts, record }: Study): FootName | null {
  const holds = (start: number, at: { readonly start: number; readonly end: number }): boolean =>
    start + at.start <= offset && offset <= start + at.end;
  const cut = cuts.find((one) => holds(one.visit.start, one.cut.at));
  if (cut) return cut.cut.foot;
  for (const { start, is } of record.visits) {
    const tape = is.tapes.find(({ at }) => holds(start, at));
    if (tape) return tape.foot;
  }
  const film = films.find((one) => holds(one.visit.start, one.film.at));
  const before = films.findLast(({ visit, film: { head } }) => visit.start + head.start <= offset);
  return (film ?? before ?? films.at(-1))?.film.foot ?? null;
}

function newestMeasured(foot: FootName, { series }: Study): StudiedFilm | null {
  const measured = series.of(foot, 'lateral').filter(({ readings }) => readings.some(tells));
  return measured.at(-1) ?? null;
}

const tells = ({ taking }: StudiedReading): boolean =>
  taking.frame !== null && (taking.values.has('palmar-angle') || taking.values.has('sole-depth.tip'));
