import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import { bareFoot } from '../../geometry/planes.ts';
import { gradeIn, loneScore, newestGraded, vetDays } from '../../course/care.ts';
import { dayOf, inOrderOfDays } from '../../course/order-of-days.ts';
import { vetSince } from '../../course/vet-agrees.ts';
import { dayNumber } from '../../notation/dates.ts';
import { isFoot } from '../../notation/vocabulary.ts';
import { findLandmark, type LandmarkName } from '../../notation/landmarks.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { CutJudge, Margin } from '../../trim/cut-limits.ts';
import type { When } from '../../trim/film-series.ts';
import { offSideAlone } from '../../trim/heels.ts';
import { isPlan, planTrim, type Goal, type NoPlan, type Plan } from '../../trim/plan.ts';
import { isYoung } from '../../trim/case-animal.ts';
import { predictAtOnce, type Prediction } from '../../trim/predict.ts';
import type { CutSize } from '../../trim/stand.ts';
import type { Study, StudiedFilm } from '../../trim/study.ts';
import { takenBefore, type CutBasis, type LostFoot } from '../../trim/trim-series.ts';
import { openAlarms } from '../open-alarms.ts';
import { belowGround, sayBelowGround } from '../wording/say-below-ground.ts';
import { perhapsFever } from '../rules/temperature.ts';
import { contactsOff } from '../rules/landmark-off-ground.ts';
import { placesInDoubt } from '../rules/landmark-order.ts';
import { differing } from '../rules/shoe-disagrees.ts';
import { heelWords, sayStops } from '../wording/say-cut.ts';
import { sayDoubtOf } from '../wording/say-bones.ts';
import { sayDate, sayDay } from '../wording/say-day.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { footWords, list, say, sayLimit, sentence, toBearing } from '../wording/wording.ts';
import { judgeOn } from './cut-limits.ts';

/** Days between the visits of an outlook where nothing else is said. */
export const usualInterval = 28;

/** Where a plan is to stand, so that it is laid on the foot as it is there and then. */
const namedFoot = (foot: string): string => (isFoot(foot) ? footWords[foot] : foot);

export interface PlanPlace {
  readonly foot: string;
  readonly moment: When;
  /** As it is written; the day of the plan. */
  readonly date: string;
}

/** The end of the file, on the day of its newest visit; null where no visit has a date. */
export function atEnd(foot: string, { record, films }: Pick<Study, 'record' | 'films'>): PlanPlace | null {
  const dates = record.visits.flatMap(({ is }) => is.date ?? []);
  for (const { film } of films) if (film.foot === foot && film.taken !== null) dates.push(film.taken);
  const date = dates
    .filter((one) => dayNumber(one) !== null)
    .toSorted()
    .at(-1);
  return date === undefined ? null : { foot, moment: { day: dayNumber(date) ?? 0, at: Infinity }, date };
}

/** Right below a film; null where its visit has no date. */
export function below({ film, visit }: StudiedFilm): PlanPlace | null {
  const { date } = visit.is;
  const day = date === null ? null : dayNumber(date);
  return date === null || day === null
    ? null
    : { foot: film.foot, moment: { day, at: visit.start + film.at.end }, date };
}

/** Something that a plan lacks, and the film that it is to be placed on. */
export interface Lacking {
  readonly film: StudiedFilm;
  readonly landmarks: readonly LandmarkName[];
}

/** What comes of asking for a plan. */
export interface Planned {
  readonly film: StudiedFilm | null;
  /** Null where there is none; `says` then tells why. */
  readonly plan: Plan | null;
  /** Why no plan may be written down, as a sentence or two; empty where it may. */
  readonly says: string;
  /** Why no cut comes of it though the film says all that it has to; null where one does, and where the film lacks something. */
  readonly none: NoPlan | null;
  /** What to place, where that is all that is missing. */
  readonly lacking: Lacking | null;
  /** What is to be known beside: trims since the film, in sentences. */
  readonly notes: readonly string[];
}

export interface PlanWish {
  readonly goal: Goal;
  /** mm off the toe's front in the same cut. */
  readonly toeBack?: number;
  /** The heel on a plane of its own, from a place that is found too. */
  readonly twoPlanes?: boolean;
  /** Days between visits. */
  readonly interval?: number;
  /** Of a hundred placings in how many the limits are kept; the setting where it is left out. */
  readonly sure?: number;
}

/** The largest cut towards a goal that keeps every limit of the case where it is to stand, or why there is none. */
export function planAt(place: PlanPlace, wish: PlanWish, study: Study): Planned {
  const basis = study.trims.basis(place.foot, place.moment);
  const { film } = basis;
  const none = (says: string, lacking: Lacking | null = null): Planned => ({
    film,
    plan: null,
    says,
    none: null,
    lacking,
    notes: [],
  });
  if (!film)
    return none(
      t(
        'There is no lateral film of the {0} foot up to {1} to plan on. Add one.',
        namedFoot(place.foot),
        sayDate(place.date),
      ),
    );
  const lacks = lackOf(film, wish.toeBack ?? 0);
  if (lacks) return none(lacks.says, lacks.lacking);
  const ground = groundDoubt(film);
  if (ground !== '') return none(ground);
  const judge = judgeFor(basis, study);
  if (!judge) return none(followedNoMore(film, basis.lost));
  const { figures } = judge;
  const care = careFirst(place, film, study);
  if (figures.palmarAngle === null)
    return none(
      isYoung(study.animal, place.moment.day) || (film.day !== null && isYoung(study.animal, film.day))
        ? t(
            'On {0} the animal is not grown yet, and for such no lowest palmar angle is known, so no cut is worked out. What a cut would leave is predicted: say how much.',
            sayDate(place.date),
          )
        : t(
            'For this animal no lowest palmar angle is known, so no cut is worked out. What a cut would leave is predicted: say how much.',
          ),
    );
  const made = planTrim({
    judge,
    goal: wish.goal,
    toeBack: wish.toeBack ?? 0,
    twoPlanes: wish.twoPlanes ?? false,
    sure: (wish.sure ?? study.trim.sure) / 100,
    interval: wish.interval ?? usualInterval,
    growth: study.trim.growth,
  });
  if (!made) return none(standsOnNothing());
  if (!isPlan(made))
    return { ...none(care || sayNone(made, wish, judge, place.foot)), none: made, notes: notesOf(basis) };
  return { film, plan: made, says: care, none: null, lacking: null, notes: notesOf(basis) };
}

/** What a cut would leave where it is to stand, and the limits that it breaks; or why that cannot be told. */
export function tryCutAt(
  place: PlanPlace,
  size: CutSize,
  study: Study,
):
  | {
      film: StudiedFilm;
      prediction: Prediction;
      broken: readonly Margin[];
      chance: number;
      judge: CutJudge;
      notes: readonly string[];
      /** What comes before any cut; empty where nothing does. */
      care: string;
    }
  | string {
  const basis = study.trims.basis(place.foot, place.moment);
  const { film } = basis;
  if (!film)
    return t(
      'There is no lateral film of the {0} foot up to {1}. Add one.',
      namedFoot(place.foot),
      sayDate(place.date),
    );
  const reading = readingOn(film);
  const missing = missingOf(film, ['heel.ground', 'toe.ground']);
  if (missing.length > 0) return sayMissing(missing, film);
  if (!reading?.taking.frame?.scale) return sayNoScale(film);
  if (!reading.taking.frame.isOnBearing) return sayNoBearing(film);
  const ground = groundDoubt(film);
  if (ground !== '') return ground;
  const judge = judgeFor(basis, study);
  if (!judge) return followedNoMore(film, basis.lost);
  // With what the foot wears under it, as before.
  const { frame } = reading.taking;
  const prediction = predictAtOnce({ ...judge.foot, frame }, size);
  const judged = judge.of(size);
  if (!prediction || !judged) return standsOnNothing();
  const broken = judged.margins.filter((margin) => margin.broken);
  return {
    film,
    prediction,
    broken,
    chance: judge.chance(size) ?? 0,
    judge,
    notes: notesOf(basis),
    care: careFirst(place, film, study),
  };
}

const standsOnNothing = (): string => t('The cut leaves nothing to stand on.');

function followedNoMore(film: StudiedFilm, lost: LostFoot | null): string {
  return lost?.kind === 'two planes'
    ? t(
        '{0} left two planes, and on which of them the foot stands since only a new film tells. Take one.',
        sentence(sayTrims([lost.trim])),
      )
    : t('More trims were made since {0} than the foot can be followed through. Take a new film.', nameOf(film));
}

/** A plan goes by the foot itself: what it will wear afterwards nobody knows yet. */
function judgeFor(basis: CutBasis, study: Study): CutJudge | null {
  const { film, lost } = basis;
  const shod = film && readingOn(film)?.taking.frame;
  const frame = shod && bareFoot(shod);
  if (!frame || lost) return null;
  return judgeOn({ frame, ...takenBefore({ kind: 'plan' }, basis) }, film.film.foot, study, film.day);
}

/** Whether a plan on the film goes by a foot that was taken off its shoe. */
export const isUnshodOn = (film: StudiedFilm): boolean => readingOn(film)?.input.bearing != null;

function notesOf({ film, earlier, unmeasured }: CutBasis): string[] {
  return [
    ...(earlier.length > 0 && film ? [t('Laid on {0} with {1} taken off it.', nameOf(film), sayTrims(earlier))] : []),
    ...(unmeasured.length > 0
      ? [
          unmeasured.length === 1
            ? t('{0} gives no millimetres and counts as nothing.', sentence(sayTrims(unmeasured)))
            : t('{0} give no millimetres and count as nothing.', sentence(sayTrims(unmeasured))),
        ]
      : []),
  ];
}

const readingOn = ({ readings }: StudiedFilm) => readings.find(({ taking }) => taking.frame) ?? readings[0];

/** `the film of 3 March 2026`. */
const nameOf = ({ day, film, visit }: StudiedFilm): string =>
  t('the film of {0}', day === null ? (film.taken ?? visit.is.date ?? t('no date')) : sayDay(day));

/** Without one of these a limit could not be judged, and no plan goes by limits that nobody can see. */
export const needed: readonly LandmarkName[] = [
  'p3.tip',
  'p3.wing',
  'heel.ground',
  'toe.ground',
  'sole.tip',
  'sole.wing',
  'sole.heel',
];

function lackOf(film: StudiedFilm, toeBack: number): { says: string; lacking: Lacking | null } | null {
  const atToe = (['horn-lamellar.lower', 'wall-angle'] as const).flatMap((name) => findMeasure(name)?.needs ?? []);
  const landmarks = missingOf(film, toeBack > 0 ? [...needed, ...atToe] : needed);
  if (landmarks.length > 0) return { says: sayMissing(landmarks, film), lacking: { film, landmarks } };
  const frame = readingOn(film)?.taking.frame;
  if (frame?.isOnBearing === false) return { says: sayNoBearing(film), lacking: null };
  if (frame?.scale) return null;
  return {
    says: frame ? sayNoScale(film) : t('On {0} nothing says where the ground is. Place its ground line.', nameOf(film)),
    lacking: null,
  };
}

function missingOf(film: StudiedFilm, names: readonly LandmarkName[]): LandmarkName[] {
  const placed = new Set(readingOn(film)?.reading.placings.map(({ name }) => name));
  return [...new Set(names)].filter((name) => !placed.has(name));
}

function sayMissing(landmarks: readonly LandmarkName[], film: StudiedFilm): string {
  return t('Place {0} on {1}.', list(landmarks.map(landmarkSaid)), nameOf(film));
}

/** `the heel’s ground contact` */
export const landmarkSaid = (name: LandmarkName): string =>
  placesSaid[name] ?? findLandmark(name)?.name.toLowerCase() ?? name;

const placesSaid: Readonly<Partial<Record<LandmarkName, string>>> = spoken({
  'p3.tip': 'the tip of the pedal bone',
  'p3.wing': 'the wing of the pedal bone',
  'heel.ground': 'the heel’s ground contact',
  'toe.ground': 'the toe’s ground contact',
  'sole.tip': 'the sole below the tip',
  'sole.wing': 'the sole below the wing',
  'sole.heel': 'the live sole beside the heel',
});

function sayNoBearing(film: StudiedFilm): string {
  return t('The foot is shod on {0}. Place the plane between hoof and shoe (bearing).', nameOf(film));
}

function sayNoScale(film: StudiedFilm): string {
  return readingOn(film)?.taking.oddSize
    ? t('The scale of {0} counts as none: the foot would have an impossible size. Mend it.', nameOf(film))
    : t('{0} has no scale. Place the two ends of its marker.', sentence(nameOf(film)));
}

/** Why nothing comes off, in the foot. */
function sayNone(made: NoPlan, { goal, toeBack = 0 }: PlanWish, judge: CutJudge, foot: string): string {
  switch (made.kind) {
    case 'there':
      return goal.kind === 'palmar-angle'
        ? t(
            '{0} is {1} or less already.',
            sentence(toBearing(theAngle(foot), judge.foot.frame)),
            sayLimit(goal.angle, 'deg'),
          )
        : atLiveSole(judge);
    case 'out of reach':
      return t('No cut of the heel brings {0} there. Ask for as much as one visit may take.', theAngle(foot));
    case 'no more':
      return t('On two planes no more comes off the heel than on one: {0}.', sayLimit(made.onOne, 'mm'));
    case 'nothing':
      return sayNothing(made.stoppedBy, judge, { toeBack, foot });
  }
}

const theAngle = (foot: string): string => (foot.endsWith('H') ? t('the plantar angle') : t('the palmar angle'));

/** Of a foot that has lost more on one side since its film, which heel it is. */
function atLiveSole({ foot: { earlier } }: CutJudge): string {
  const [inside, outside] = [offSideAlone(earlier, 'inside'), offSideAlone(earlier, 'outside')];
  if (inside === outside) return t('The heel is at the live sole plane already, within half a millimetre.');
  return t(
    '{0} is at the live sole plane already, within half a millimetre: {1} came off its side since the film.',
    sentence(inside > outside ? heelWords.inside : heelWords.outside),
    say(Math.max(inside, outside), 'mm'),
  );
}

function sayNothing(
  stoppedBy: readonly Margin[],
  judge: CutJudge,
  { toeBack, foot }: { readonly toeBack: number; readonly foot: string },
): string {
  const [first] = stoppedBy;
  if (!first) return t('Nothing can come off the heel.');
  const uncut = judge
    .of({ heelDown: 0, toeDown: 0, toeBack: 0 })
    ?.margins.find(({ code, place }) => code === first.code && place === first.place);
  const stands = uncut?.value ?? first.value;
  const nothing =
    first.code === 'trim/wall-left'
      ? t('The toe cannot come back by {0}', sayLimit(toeBack, 'mm'))
      : t('Nothing can come off the heel');
  const why = ((): string => {
    switch (first.code) {
      case 'trim/live-sole':
      case 'trim/sole-depth': {
        const where =
          first.place === 'heel'
            ? t('beside the heel')
            : first.place === 'wing'
              ? t('under the wing')
              : t('under the tip');
        if (stands < -0.05) return t('the sole {0} already stands {1} below the wall', where, say(-stands, 'mm'));
        if (stands < 0.05) return t('the sole {0} stands on the ground already', where);
        return t('the sole {0} stands only {1} above the ground', where, say(stands, 'mm'));
      }
      case 'trim/below-sole-plane':
        if (first.value + 0.5 < 0.05) return t('the heel stands level with the live sole beside it');
        return t('the heel stands only {0} above the live sole beside it', say(Math.max(0, first.value + 0.5), 'mm'));
      case 'trim/palmar-angle': {
        const at = judge.figures.palmarAngle ?? 0;
        return t(
          '{0} is {1}, and {2} is the least',
          toBearing(theAngle(foot), judge.foot.frame),
          say(at + stands, 'deg'),
          sayLimit(at, 'deg'),
        );
      }
      case 'trim/wall-left':
        return t(
          'only {0} of horn would be left outside the lamellae, and {1} stay',
          say(Math.max(0, first.value + judge.figures.horn), 'mm'),
          sayLimit(judge.figures.horn, 'mm'),
        );
      default:
        return list(sayStops([first], judge.figures, judge.foot.frame));
    }
  })();
  const sure = stoppedBy.every(({ value }) => value >= 0)
    ? t(', and the placing is sure to ± {0} only', first.sd.toFixed(1))
    : '';
  return `${nothing}: ${why}${sure}.`;
}

/** Why no cut may be laid on a foot as it is there and then, whatever its size; empty where nothing speaks against it. */
export function careAt(place: PlanPlace, study: Study): string {
  const { film, lost } = study.trims.basis(place.foot, place.moment);
  if (!film)
    return t(
      'There is no lateral film of the {0} foot up to {1}. Add one.',
      namedFoot(place.foot),
      sayDate(place.date),
    );
  return lackOf(film, 0)?.says || (lost ? followedNoMore(film, lost) : careFirst(place, film, study));
}

/** What has to come before any cut is written down: a sentence, or empty where nothing has. */
function careFirst(place: PlanPlace, film: StudiedFilm, study: Study): string {
  const [alarm] = openAlarms(study);
  if (alarm) return t('An alarm is open, so no cut is written down: {0}', alarm.message);
  const fever = feverOpen(study);
  if (fever !== '') return fever;
  const doubt = planDoubt(film, study);
  if (doubt !== '') return doubt;
  const age = film.day === null ? 0 : place.moment.day - film.day;
  if (age > study.trim.filmAge)
    return t(
      '{0} is {1} days old; after {2} it shows another foot (a judgement, no source). Ask the vet for a new one.',
      sentence(nameOf(film)),
      age,
      study.trim.filmAge,
    );
  return lameWithoutVet(place, study) || unreadLine(film, study);
}

/** The newest temperature may be a fever, and no day on which the vet saw the animal is written since. */
function feverOpen(study: Study): string {
  const visits = inOrderOfDays(study.record.visits);
  const last = visits.findLast(({ is }) => is.temperatures.length > 0)?.is;
  const found = last && perhapsFever(last, study.animal);
  if (!found) return '';
  const day = last.date === null ? null : dayNumber(last.date);
  if (vetDays(study).some((one) => day === null || one >= day)) return '';
  return t(
    'The newest temperature is {0} °C, which may be a fever, so no cut is written down. Tell the vet; when the vet has been, write: vet seen DATE. Where it has gone down, write the new one.',
    found.degrees,
  );
}

/**
 * A line that is not understood may be a sign, a grade, millimetres that were taken, or a limit: no cut goes by what nobody can read. Of
 * films only the one that is planned on counts, as the others say nothing of it.
 */
function unreadLine(film: StudiedFilm, { record }: Study): string {
  const { visits, outside } = record;
  const unread = visits.find(({ is }) => is.unreadAt !== null);
  if (unread)
    return t(
      'A line of the visit of {0} is not understood, and it may be a sign, a grade, or what was taken. Mend it first.',
      unread.is.date === null ? t('no date') : sayDate(unread.is.date),
    );
  if (film.film.unreadAt !== null)
    return t('A line of {0} is not understood, and every millimetre may hang on it. Mend it first.', nameOf(film));
  if (outside.length > 0)
    return t('A line outside every visit speaks of the animal’s state, and nobody knows of which day. Mend it first.');
  const isLimitLost = record.limits.some(({ is }) => !findMeasure(is.measure));
  return record.unreadOutsideAt !== null || isLimitLost
    ? t('A line outside every visit is not understood, and it may be a limit, or say what animal it is. Mend it first.')
    : '';
}

/** Lame from Obel 1 on, or by a score alone, and no line from then to the plan says what the vet agrees to. */
function lameWithoutVet({ moment }: PlanPlace, { record: { visits } }: Study): string {
  const until = inOrderOfDays(visits).filter((visit) => {
    const day = dayOf(visit);
    return day === null || day < moment.day || (day === moment.day && visit.start <= moment.at);
  });
  const last = newestGraded(until);
  const graded = until[last];
  const grade = graded && gradeIn(graded.is);
  const alone = loneScore(until);
  if (alone && !alone.against) {
    if (vetSince(until, until.indexOf(alone.visit))) return '';
    return t(
      'The lameness is written by a modified Obel score of {0} alone, which is no Obel grade, and no vet line says what the vet agrees to. Ask the vet, and write down both: obel, and vet "…"',
      alone.score.value,
    );
  }
  if (!graded || (grade && grade.value < 1 && !alone)) return '';
  if (vetSince(until, last)) return '';
  if (alone?.against)
    return t(
      'The lameness is written as {0} and as a modified Obel score of {1}, which do not agree, and no vet line says what the vet agrees to. Keep the one that is right, ask the vet, and write it down: vet "…"',
      alone.against.said,
      alone.score.value,
    );
  return t(
    'The lameness is {0}, and no vet line says what the vet agrees to. Ask the vet, and write it down: vet "…"',
    grade ? grade.said : t('written so that no grade can be read'),
  );
}

/** Why no millimetre that is planned on a film can be relied on; empty where neither its scale nor what it stands on is in doubt. */
export function planDoubt(film: StudiedFilm, study: Study): string {
  const ground = groundDoubt(film);
  if (ground !== '') return ground;
  const [exchanged] = film.readings.flatMap((reading) => placesInDoubt(film, reading));
  if (exchanged !== undefined)
    return t('Landmarks on {0} contradict each other, and no plan goes by them. {1}', nameOf(film), exchanged);
  const doubt = sayDoubtOf([film], study);
  return doubt === '' ? '' : t('Scale in doubt: {0}. No millimetre of a plan on it can be relied on.', doubt);
}

/** Why nothing can be laid on what the foot stands on: no cut is worked out there, nor told what it would leave. */
function groundDoubt(film: StudiedFilm): string {
  const below = film.film.bearing ? (film.readings.map(belowGround).find((ends) => ends.length > 0) ?? []) : [];
  if (below.length > 0)
    return t(
      'The bearing plane lies below the ground on {0}: {1}. No millimetre of a plan on it can be relied on. Look at both lines and place what is off again.',
      nameOf(film),
      sayBelowGround(below),
    );
  const [another] = film.readings.flatMap((reading) => contactsOff(film, reading) ?? [...differing(film, reading)]);
  return another
    ? t(
        'No millimetre of a plan on {0} can be relied on, as its ground does not agree with the foot. {1}',
        nameOf(film),
        another.message,
      )
    : '';
}
