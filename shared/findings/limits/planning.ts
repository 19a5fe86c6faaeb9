import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import { bareFoot } from '../../geometry/planes.ts';
import { isFoot } from '../../notation/vocabulary.ts';
import { findLandmark, type LandmarkName } from '../../notation/landmarks.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { CutJudge, Margin } from '../../trim/cut-limits.ts';
import { isPlan, planTrim, type Goal, type NoPlan, type Plan } from '../../trim/plan.ts';
import { isYoung } from '../../trim/case-animal.ts';
import { predictAtOnce, type Prediction } from '../../trim/predict.ts';
import type { CutSize } from '../../trim/stand.ts';
import type { Study, StudiedFilm } from '../../trim/study.ts';
import { takenBefore, type CutBasis, type LostFoot } from '../../trim/trim-series.ts';
import { nameOf } from '../wording/name-of-film.ts';
import { sayDate } from '../wording/say-day.ts';
import { sayNone } from '../wording/say-no-plan.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { footWords, list, sentence } from '../wording/wording.ts';
import { judgeOn } from './cut-limits.ts';
import { careFirst, groundDoubt } from './plan-care.ts';
import type { PlanPlace } from './plan-place.ts';

/** Days between the visits of an outlook where nothing else is said. */
export const usualInterval = 28;

const namedFoot = (foot: string): string => (isFoot(foot) ? footWords[foot] : foot);

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
